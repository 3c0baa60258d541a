// What is asked of the API: every GET of its document, for one client after another, and the writes of a day.
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { URLSearchParams } from 'node:url';
import { root } from '../../scripts/services/paths.mjs';

/**
 * @typedef {Readonly<Record<string, string>>} Ids by the name that paths call them by
 * @typedef {{ name: string, path: string, body?: object }} Asked
 * @typedef {{ name: string, in: string, required?: boolean, schema: { format?: string } }} Parameter
 * @typedef {{ paths: Record<string, { get?: { operationId: string, parameters?: Parameter[] } }> }} OpenApi
 */

/** Which table a name's record stands in, and by what column it hangs on the client or the session asked about. */
const records = {
  bikeId: ['bikes', 'client_id'],
  shoeId: ['shoes', 'client_id'],
  screeningId: ['screenings', 'client_id'],
  appointmentId: ['appointments', 'client_id'],
  referralId: ['referrals', 'client_id'],
  followUpId: ['follow_ups', 'fit_session_id'],
  planId: ['plans', 'fit_session_id'],
  fitSheetId: ['fit_sheets', 'fit_session_id'],
  documentId: ['account_documents', 'client_id'],
  paymentId: ['payments', 'client_id'],
  messageId: ['messages', 'client_id'],
  taskId: ['tasks', null],
  wishId: ['slot_wishes', null],
  serviceId: ['services', null],
  roomId: ['rooms', null],
  partId: ['parts', null],
};

/**
 * Clients of the studio, spread over all, each with one of its sessions and one of its records of every kind there is.
 *
 * @param {import('pg').Client} admin
 * @param {string} studioId
 * @param {number} count
 * @returns {Promise<Ids[]>}
 */
export async function casesOf(admin, studioId, count) {
  const columns = Object.entries(records).map(([name, [table, link]]) => {
    const of = {
      client_id: 'AND of.client_id = s.client_id',
      fit_session_id: 'AND of.fit_session_id = s.id',
    };
    const hangs = link === null ? '' : of[/** @type {keyof typeof of} */ (link)];
    return `(SELECT id FROM ${table} of WHERE of.studio_id = s.studio_id ${hangs} ORDER BY id LIMIT 1) AS "${name}"`;
  });
  /** @type {import('pg').QueryResult<Record<string, string>>} */
  const { rows } = await admin.query(
    `SELECT s.client_id AS "clientId", s.id AS "fitSessionId", c.family_name AS "familyName", ${columns.join(', ')},
            (SELECT id FROM users u WHERE u.studio_id = s.studio_id AND 'fitter' = ANY (roles) ORDER BY id LIMIT 1) AS "fitterId",
            (SELECT id FROM positions p WHERE p.studio_id = s.studio_id AND p.fit_session_id = s.id AND stage = 'found') AS "from",
            (SELECT id FROM positions p WHERE p.studio_id = s.studio_id AND p.fit_session_id = s.id AND stage = 'left') AS "to",
            to_char(s.created_at, 'YYYY-MM-DD') AS day, to_char(app_now() + interval '2 days', 'YYYY-MM-DD') AS soon
       FROM (SELECT * FROM fit_sessions WHERE studio_id = $1 AND id IN (
              SELECT fit_session_id FROM outcome_summaries WHERE studio_id = $1 AND answer_state = 'answered') ORDER BY random() LIMIT $2) s
       JOIN clients c ON c.studio_id = s.studio_id AND c.id = s.client_id`,
    [studioId, count],
  );
  return rows;
}

/** @type {unknown} */
const read = JSON.parse(readFileSync(path.join(root, 'libs/api-client/openapi.json'), 'utf8'));
const document = /** @type {OpenApi} */ (read);

/** Asked for by a link of their own, or of what the model has none. */
const notAsked = ['readStoredObject', 'openFollowUpLink', 'live', 'ready'];

/** @param {string} day @param {number} days */
const plus = (day, days) => new Date(Date.parse(day) + days * 86_400_000).toISOString().slice(0, 10);

/**
 * @param {Ids} ids
 * @returns {Asked[]} those whose records there are
 */
export function reads(ids) {
  const { day = '', soon = '' } = ids;
  const dates = /** @type {Ids} */ ({
    ...{
      day,
      firstDay: soon,
      lastDay: plus(soon, 30),
      from: plus(day, -15),
      until: plus(day, 15),
      to: plus(day, 1),
    },
  });
  /** @param {Parameter} parameter */
  const valueOf = ({ name, schema }) =>
    schema.format === 'date-time'
      ? `${name === 'from' ? day : plus(day, 1)}T00:00:00Z`
      : schema.format === 'date'
        ? dates[name]
        : ids[name];
  const all = Object.entries(document.paths).flatMap(([route, { get }]) => {
    if (!get || notAsked.includes(get.operationId)) return [];
    const needed = (get.parameters ?? []).filter((parameter) => parameter.required === true);
    const given = needed.map((parameter) => /** @type {const} */ ([parameter, valueOf(parameter)]));
    const known = given.flatMap(([{ name, in: place }, value]) => (value ? [{ name, place, value }] : []));
    if (known.length < needed.length) return [];
    const filled = known
      .filter(({ place }) => place === 'path')
      .reduce((text, { name, value }) => text.replace(`{${name}}`, value), route);
    const query = new URLSearchParams();
    for (const { name, place, value } of known) if (place === 'query') query.set(name, value);
    return [{ name: get.operationId, path: `${filled}?${query.toString()}` }];
  });
  return [...all, ...searches(ids)];
}

/** @param {Ids} ids @returns {Asked[]} */
const searches = ({ clientId = '', familyName = '', fitSessionId = '' }) => [
  { name: 'listClients, by name', path: `/v1/clients?name=${familyName}` },
  { name: 'listClients, a later page', path: `/v1/clients?after=${clientId}` },
  { name: 'listMessages, of one client', path: `/v1/messages?clientId=${clientId}` },
  { name: 'listAuditEntries, of one record', path: `/v1/audit-entries?recordId=${fitSessionId}` },
  { name: 'listAccountDocuments, of one client', path: `/v1/account-documents?clientId=${clientId}` },
  { name: 'listTasks, of one client', path: `/v1/tasks?clientId=${clientId}` },
  { name: 'reviewOutcomes, of midfoot', path: '/v1/outcomes/review?intervention=midfoot' },
];

/**
 * @param {Ids} ids
 * @param {number} turn no two the same
 * @returns {Asked[]}
 */
export function writes({ clientId = '', bikeId = '', shoeId = '', ...ids }, turn) {
  const { serviceId = '', roomId = '', fitterId = '', soon = '' } = ids;
  const startsAt = `${plus(soon, 100 + turn)}T09:00:00Z`;
  return [
    { name: 'createClient', path: '/v1/clients', body: { givenName: 'Robin', familyName: `Rider ${turn}` } },
    {
      name: 'createAppointment',
      path: '/v1/appointments',
      body: { clientId, serviceId, roomId, fitterId, startsAt },
    },
    { name: 'writeClientNote', path: `/v1/clients/${clientId}/notes`, body: { text: 'Came by.' } },
    { name: 'openFitSession', path: '/v1/fit-sessions', body: { clientId, bikeId, shoeId } },
    {
      name: 'recordPayment',
      path: '/v1/payments',
      body: { kind: 'deposit', method: 'cash', amountMinor: 100, clientId },
    },
  ];
}

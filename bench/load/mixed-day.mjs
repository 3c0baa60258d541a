import { dataOf } from '@studio/api-client';
import { randomBytes, randomUUID } from 'node:crypto';
import pg from 'pg';
import { demoStudio } from '../../seed/dist/demo-studio.js';
import { fitOthers } from '../../seed/dist/story/other-riders.js';
import { openForTheDay } from '../../seed/dist/story/studio.js';
import { step } from '../../scripts/services/step.mjs';
import { cleatPlanInput } from '../cleat-plan-input.mjs';
import { openForBench } from '../studio.mjs';
import { ask } from './ask.mjs';

const database = 'studio_bench_load';
const clients = 20_000;
/** Enough fitters and rooms for all that is booked in an hour of load. */
const bays = 40;
const visitMs = 120 * 60_000;
/** The day whose sheet is read has no more visits than a large studio; those of the load are booked from the day after. */
const day = '2090-01-01';
const visitsOfDay = 24;
const firstVisitAt = Date.parse('2090-01-02T00:00:00Z');

/** @typedef {{ who: string, share: number, send: () => Promise<boolean> }} Act `share` of all requests */

/**
 * A studio in full swing, and what everybody asks of it.
 *
 * @param {import('../../scripts/services/processes.mjs').Processes} processes
 * @param {{ metricsPort: number, random: () => number }} options
 * @returns {Promise<readonly Act[]>}
 */
export async function mixedDay(processes, { metricsPort, random }) {
  const { adminUrl, apiUrl, headers, owner, studioId } = await openForBench(processes, {
    ...{ database, metricsPort },
    studio: demoStudio,
  });
  const studio = await step('fitting riders', async () => {
    const opened = await openForTheDay(apiUrl);
    await fitOthers(opened);
    return opened;
  });
  const known = await step(`inserting ${clients.toLocaleString('en')} clients`, () =>
    insertClients(adminUrl, studioId),
  );
  /** @type {string[]} */
  const fitters = [];
  /** @type {string[]} */
  const rooms = [];
  for (let bay = 0; bay < bays; bay += 1) {
    const person = { email: `fitter${bay}@bench.example`, displayName: `Fitter ${bay}` };
    const body = {
      ...person,
      roles: [/** @type {const} */ ('fitter')],
      password: randomBytes(12).toString('hex'),
    };
    fitters.push((await dataOf(owner.POST('/v1/staff', { body }))).id);
    rooms.push((await dataOf(owner.POST('/v1/rooms', { body: { name: `Bay ${bay}` } }))).id);
  }
  for (let index = 0; index < visitsOfDay; index += 1) {
    const bay = index % (visitsOfDay / 4);
    const startsAt = new Date(
      Date.parse(`${day}T08:00:00Z`) + Math.floor(index / (visitsOfDay / 4)) * visitMs,
    );
    const body = {
      ...{ clientId: known.riders[index % known.riders.length] ?? '', serviceId: studio.serviceId },
      ...{ fitterId: fitters[bay] ?? '', roomId: rooms[bay] ?? '', startsAt: startsAt.toISOString() },
    };
    await dataOf(owner.POST('/v1/appointments', { body }));
  }
  const [rider = ''] = known.riders;
  const path = { clientId: rider };
  const handedOver = { delivery: /** @type {const} */ ('hand_over') };
  const { url: intakePage } = await dataOf(
    owner.POST('/v1/clients/{clientId}/intake-links', { params: { path }, body: handedOver }),
  );
  if (intakePage == null) throw new Error('no link was handed over');

  /** @template T @param {readonly T[]} from @returns {T} */
  const one = (from) => /** @type {T} */ (from[Math.floor(random() * from.length)]);
  /** @param {string} where @param {Parameters<typeof ask>[1]} [more] */
  const call = (where, more) => ask(`${apiUrl}/v1/${where}`, { headers, ...more });
  let booked = 0;
  const visit = () => {
    const bay = booked % bays;
    const startsAt = new Date(firstVisitAt + Math.floor(booked / bays) * visitMs).toISOString();
    booked += 1;
    const place = { fitterId: fitters[bay], roomId: rooms[bay] };
    return { clientId: one(known.clients), serviceId: studio.serviceId, ...place, startsAt };
  };
  const once = () => ({ ...headers, 'idempotency-key': randomUUID() });
  /** @param {object} body */
  const create = (body) => ({ headers: once(), body, expected: 201 });

  return [
    { who: 'desk', share: 0.1, send: () => call(`day-sheet?day=${day}`) },
    {
      who: 'desk',
      share: 0.08,
      send: () => call(`clients?name=Family%20${Math.floor(random() * clients)}`),
    },
    { who: 'desk', share: 0.08, send: () => call(`clients?after=${one(known.clients)}`) },
    { who: 'desk', share: 0.14, send: () => call(`clients/${one(known.clients)}`) },
    {
      who: 'desk',
      share: 0.05,
      send: () =>
        call(
          `availability?serviceId=${studio.serviceId}&firstDay=2090-03-01&lastDay=2090-03-07&stepMinutes=60`,
        ),
    },
    { who: 'desk', share: 0.1, send: () => call('appointments', create(visit())) },
    {
      who: 'desk',
      share: 0.05,
      send: () => call('clients', create({ givenName: 'New', familyName: 'Rider' })),
    },
    { who: 'fitter', share: 0.15, send: () => call(`fit-sessions/${one(known.sessions)}`) },
    {
      who: 'fitter',
      share: 0.06,
      send: () => call('calculations/cleat-plans', { body: cleatPlanInput }),
    },
    {
      who: 'fitter',
      share: 0.04,
      send: () => call(`clients/${one(known.clients)}/notes`, create({ text: 'Prefers mornings.' })),
    },
    { who: 'client', share: 0.1, send: () => ask(intakePage) },
    { who: 'owner', share: 0.03, send: () => call('tasks') },
    { who: 'owner', share: 0.01, send: () => call('outcomes/review') },
    { who: 'owner', share: 0.01, send: () => call('outcomes/workload?from=2090-01-01&until=2090-02-01') },
  ];
}

/**
 * @param {string} adminUrl
 * @param {string} studioId
 * @returns {Promise<{ clients: string[], riders: string[], sessions: string[] }>} ids; `riders` have been fitted
 */
async function insertClients(adminUrl, studioId) {
  const client = new pg.Client({ connectionString: adminUrl });
  await client.connect();
  /** @param {string} text */
  const ids = async (text) => {
    /** @type {pg.QueryResult<{ id: string }>} */
    const { rows } = await client.query(text, [studioId]);
    return rows.map(({ id }) => id);
  };
  try {
    const riders = await ids('SELECT id FROM clients WHERE studio_id = $1');
    await client.query(
      `INSERT INTO clients (studio_id, given_name, family_name, email)
       SELECT $1, 'Given ' || n, 'Family ' || n, 'rider' || n || '@bench.example' FROM generate_series(1, $2::integer) n`,
      [studioId, clients],
    );
    await client.query('VACUUM ANALYZE');
    const sessions = await ids('SELECT id FROM fit_sessions WHERE studio_id = $1');
    const all = await ids('SELECT id FROM clients WHERE studio_id = $1 ORDER BY random() LIMIT 2000');
    return { clients: all, riders, sessions };
  } finally {
    await client.end();
  }
}

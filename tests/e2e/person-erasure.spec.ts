import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf, type components } from '@studio/api-client';
import type { ChildProcess } from 'node:child_process';
import pg from 'pg';
import {
  columnsWith,
  filesWith,
  redisKeysWith,
  sealedColumnsWith,
  storedFiles,
} from '../helpers/everywhere.js';
import { askFirstFollowUp } from '../helpers/follow-up.js';
import { eventually } from '../helpers/mail.js';
import { marked, takeOnMarkedPerson } from '../helpers/marked-person.js';
import { nothingNew, screen, signedSession, takeOnClient, type TestClient } from '../helpers/rider.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';
import { startWorker, stop } from '../helpers/worker.js';

type RightsRequest = components['schemas']['RightsRequestResponse'];

let api: TestApi;
let here: TestStudio;
let admin: pg.Client;
let worker: ChildProcess;
let person: TestClient & { fitSessionId: string };
let requestId: string;

beforeAll(async () => {
  api = await startTestApi();
  here = await openTestStudio(api);
  admin = new pg.Client({ connectionString: api.database.adminUrl });
  await admin.connect();
  worker = startWorker(api, 'person-erasure');
  person = await takeOnMarkedPerson(api, here);
  // Somebody else, of whom nothing may be lost.
  const other = await takeOnClient(here.owner, 'other@riders.example');
  await screen(here.owner, other.clientId);
  await signedSession(here.owner, other);
  await answerFollowUp();
}, 60_000);
afterAll(async () => {
  await stop(worker);
  await admin.end();
  await api.close();
});

async function answerFollowUp(): Promise<void> {
  const link = (await askFirstFollowUp(api, here, person.clientId)).replace('/follow-up/', '');
  await daysPass(20);
  await dataOf(
    here.owner.POST('/v1/follow-up-links/{link}/answers', {
      params: { path: { link } },
      body: { pain: 2, comfort: 70, numbness: false, answers: nothingNew },
    }),
  );
  await eventually('the outcome', 20, async () => {
    const { rows } = await admin.query(
      `SELECT 1 FROM outcome_summaries WHERE client_id = $1 AND answer_state = 'answered'`,
      [person.clientId],
    );
    return rows[0] === undefined ? undefined : true;
  });
}

const everyWord = Object.values(marked);
/** Where anything of the person can be read, anywhere. */
async function traces(): Promise<string[]> {
  return [
    ...(await columnsWith(api.database, ...everyWord)),
    ...(await sealedColumnsWith(api.database, here.studio.studioId, ...everyWord)),
    ...(await filesWith(api.storageFolder, ...everyWord)).map((file) => `storage: ${file}`),
    ...(await redisKeysWith(...everyWord)).map((key) => `redis: ${key}`),
  ];
}
const tablesOf = (columns: readonly string[]): string[] => [
  ...new Set(columns.map((column) => column.split('.')[0] ?? '')),
];

const daysPass = (days: number) =>
  dataOf(here.owner.POST('/v1/test-clock/advance', { body: { seconds: days * 86_400 } }));
const ofRequest = (version: number) => ({
  params: { path: { rightsRequestId: requestId }, header: { 'If-Match': `"${version}"` } },
});
const readRequest = (): Promise<RightsRequest> =>
  dataOf(
    here.owner.GET('/v1/rights-requests/{rightsRequestId}', {
      params: { path: { rightsRequestId: requestId } },
    }),
  );

/** As on the days that come: what is due by then is erased. */
async function yearsPass(years: number): Promise<void> {
  for (let passed = 0; passed < years; passed += 1) await daysPass(366);
  const { rows } = await admin.query<{ id: string }>(
    `INSERT INTO outbox (studio_id, job, payload) VALUES ($1, 'end-retention', '{}') RETURNING id`,
    [here.studio.studioId],
  );
  await eventually('retention ends', 30, async () => {
    const done = await admin.query('SELECT 1 FROM outbox WHERE id = $1 AND done_at IS NOT NULL', [
      rows[0]?.id,
    ]);
    return done.rowCount === 1 ? true : undefined;
  });
}

const chain = () => dataOf(here.owner.GET('/v1/record-verification'));

describe('a person who asks to be erased', () => {
  it('is found in many places before', async () => {
    await eventually('the fit sheet', 20, async () =>
      (await storedFiles(api.storageFolder)).length > 3 ? true : undefined,
    );
    const found = await traces();
    expect(tablesOf(found).length).toBeGreaterThanOrEqual(25);
    for (const table of ['clients', 'screenings', 'referrals', 'record_signatures'])
      expect(tablesOf(found)).toContain(table);
    expect(await chain()).toMatchObject({ intact: true, signatures: 3, erased: 0 });
  });

  it('is not, before it is known who asks and by which law records are kept', async () => {
    const request = await dataOf(
      here.desk.POST('/v1/clients/{clientId}/rights-requests', {
        params: { path: { clientId: person.clientId } },
        body: { kind: 'erasure' },
      }),
    );
    requestId = request.id;
    expect(request).toMatchObject({ state: 'received', allowed: ['identity_checked', 'refused'] });
    const fulfil = (version: number) =>
      here.owner.POST('/v1/rights-requests/{rightsRequestId}/fulfilment', {
        ...ofRequest(version),
        body: {},
      });
    expect((await fulfil(1)).error).toMatchObject({
      ...{ status: 409, code: 'rights.step-impossible', state: 'received' },
    });
    await dataOf(
      here.owner.POST('/v1/rights-requests/{rightsRequestId}/identity-check', {
        ...ofRequest(1),
        body: { how: `Known to us; ${marked.word}` },
      }),
    );
    expect((await fulfil(2)).error).toMatchObject({ status: 409, code: 'rights.retention-undecided' });
    await dataOf(
      here.owner.PUT('/v1/retention', {
        params: { header: { 'If-Match': '"1"' } },
        body: { country: 'DK', boundByHealthLaw: true },
      }),
    );
    expect(await dataOf(fulfil(2))).toMatchObject({ state: 'under_way', allowed: ['done'] });
  });

  it('is told what is kept by which law until when, and the rest is gone', async () => {
    const request = await eventually('the erasure', 30, async () => {
      const read = await readRequest();
      return read.state === 'done' ? read : undefined;
    });
    const { now } = await dataOf(here.owner.POST('/v1/test-clock/advance', { body: { seconds: 1 } }));
    const year = new Date(now).getUTCFullYear();
    expect(request.parts).toMatchObject([
      { category: 'contact', erased: true, keptByLaw: null },
      { category: 'health_record', erased: false, keptByLaw: 'Journalføringsbekendtgørelsen' },
      { category: 'accounts', erased: false, keptByLaw: 'Bogføringsloven' },
    ]);
    expect(request.parts[2]?.eraseOn).toBe(`${year + 6}-01-01`);
    expect(request.answer.join('\n')).toMatch(/Kept until .* The law asks for it: Bogføringsloven/);
    const left = tablesOf(await traces());
    for (const gone of [
      'messages',
      'client_notes',
      'client_merges',
      'client_import_rows',
      'idempotency_keys',
    ])
      expect(left).not.toContain(gone);
    expect(await columnsWith(api.database, marked.email)).toEqual([]);
    expect(await columnsWith(api.database, marked.phoneE164)).toEqual([]);
    // What is left is what the law keeps, and the request itself.
    expect(left).toEqual(
      expect.arrayContaining(['clients', 'screenings', 'account_documents', 'rights_requests']),
    );
  });

  it('is only kept meanwhile: readable, and nothing is added', async () => {
    const path = { clientId: person.clientId };
    expect(await dataOf(here.owner.GET('/v1/clients/{clientId}', { params: { path } }))).toMatchObject({
      ...{ givenName: marked.givenName, email: null, note: null, restrictedAt: expect.any(String) },
    });
    const { fitSessionId: _, ...body } = person;
    const session = here.owner.POST('/v1/fit-sessions', { body });
    expect((await session).error).toMatchObject({ status: 409, code: 'clients.restricted' });
    const end = here.owner.POST('/v1/clients/{clientId}/restriction-end', { params: { path } });
    expect((await end).error).toMatchObject({ status: 409, code: 'rights.not-restricted' });
    const review = await dataOf(here.owner.GET('/v1/outcomes/review'));
    expect(review.sessions).toBe(1);
  });

  it('and before their time neither signed record nor receipt can be taken away', async () => {
    const app = new pg.Client({ connectionString: api.database.workerUrl });
    await app.connect();
    try {
      await app.query(`SELECT set_config('app.studio_id', $1, false)`, [here.studio.studioId]);
      const of = [person.fitSessionId];
      await expect(app.query('DELETE FROM positions WHERE fit_session_id = $1', of)).rejects.toMatchObject({
        constraint: 'fit_sessions_signed_is_final',
      });
      await expect(app.query(`UPDATE account_documents SET buyer_name = 'x'`)).rejects.toMatchObject({
        constraint: 'account_documents_stay',
      });
    } finally {
      await app.end();
    }
  });

  it('loses the name on receipts when the law of accounts lets go, and the sums stay', async () => {
    const sums = async () =>
      (
        await admin.query<{ gross: number; n: number }>(
          `SELECT sum(gross_minor)::int AS gross, count(*)::int AS n FROM account_documents WHERE state = 'issued'`,
        )
      ).rows;
    const before = await sums();
    await yearsPass(7);
    const left = tablesOf(await traces());
    for (const gone of ['account_documents', 'account_lines', 'payments']) expect(left).not.toContain(gone);
    expect(left).toContain('screenings');
    expect(await sums()).toEqual(before);
  });

  it('is nowhere any more when the last law lets go: not in a column, a file or a queue', async () => {
    await yearsPass(4);
    expect(await traces()).toEqual([]);
    const ids = [person.clientId, person.fitSessionId, person.bikeId];
    const named = await columnsWith(api.database, ...ids);
    // Only where it was logged and signed that there was something, and what was done.
    for (const column of named)
      expect(['audit_entries', 'record_signatures', 'outbox', 'webhook_events']).toContain(
        column.split('.')[0],
      );
    expect(await storedFiles(api.storageFolder)).toEqual([]);
    expect(await readRequest()).toMatchObject({
      ...{ clientId: null, state: 'done', identityCheckedHow: null, kind: 'erasure' },
    });
  });

  it('leaves both chains whole', async () => {
    expect(await chain()).toMatchObject({ intact: true, signatures: 4, erased: 2, broken: [] });
    await admin.query(`INSERT INTO outbox (studio_id, job, payload) VALUES ($1, 'seal-audit', '{}')`, [
      here.studio.studioId,
    ]);
    const verification = await eventually('the seal', 20, async () => {
      const answer = await dataOf(here.owner.GET('/v1/audit-verification'));
      return answer.unsealed < 5 ? answer : undefined;
    });
    expect(verification).toMatchObject({ intact: true });
  });

  it('still counts in the review, and nothing leads from there to anybody', async () => {
    const review = await dataOf(here.owner.GET('/v1/outcomes/review'));
    expect(review).toMatchObject({ sessions: 2, answered: 1 });
    const { rows } = await admin.query<{ known: string; day: string }>(
      `SELECT o.*, to_char(o.signed_at, 'DD HH24:MI:SS') AS day FROM outcome_summaries o
        WHERE NOT EXISTS (SELECT FROM clients c WHERE c.id = o.client_id)`,
    );
    expect(rows).toHaveLength(1);
    expect(rows[0]?.day).toBe('01 00:00:00');
  });

  it('and an erasure that nobody signed is seen', async () => {
    await admin.query('BEGIN');
    await admin.query(`SET LOCAL session_replication_role = 'replica'`);
    await admin.query(`UPDATE record_signatures SET content = NULL WHERE number = 3`);
    await admin.query('COMMIT');
    const { intact, broken } = await chain();
    expect(intact).toBe(false);
    expect(broken).toContainEqual(
      expect.objectContaining({ number: 3, part: 'signature', what: 'missing', fields: ['content'] }),
    );
  });
});

import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf, openClient } from '@studio/api-client';
import path from 'node:path';
import pg from 'pg';
import { modelOf } from '../../bench/grow/model-rows.mjs';
import { copyClients } from '../../bench/grow/multiply.mjs';
import { explainEverything, PlanLog, type Statement } from '../../bench/grow/plans.mjs';
import { untiedTables } from '../../bench/grow/studio-named.mjs';
import { dataFolder } from '../../scripts/services/paths.mjs';
import { createTestDatabase } from '../helpers/database.js';
import { makeEveryRecord } from '../helpers/every-record.js';
import { call, operations } from '../helpers/openapi.js';
import { screen, signedSession, takeOnClient } from '../helpers/rider.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';

/** More rows than a page holds; a table of fewer tells nothing. */
const fewRows = 60;
/** Of every client of the model, each with one visit. */
const copies = 70;

/**
 * These tables are small, so PostgreSQL would rather read them whole: what it still reads whole has no index to go by. Of
 * several indexes it takes the one that leads to the fewest pages, as if each were far away. And it plans a prepared
 * statement for all values alike, as it may after five times.
 */
const asIfLarge = {
  enable_seqscan: 'off',
  seq_page_cost: '1000',
  random_page_cost: '1000',
  plan_cache_mode: 'force_generic_plan',
};

/** They check all that a studio ever signed and did, once in a while, by as many statements. */
const notAsked = ['verifyRecords', 'verifyAudit'];
/** What looks at all of a studio, and why it may. */
const wholeStudio: Readonly<Record<string, string>> = {
  showQueues: 'what is not done is counted, and here no worker does anything',
  findSimilarPositions: 'a rider is compared with all others',
  listLikelyDuplicates: 'a name is compared with all others',
  exportClients: 'all clients are written out',
  reviewWorkload: 'all referrals of a time are counted',
  exportWorkloadCsv: 'the same',
  exportWorkloadPdf: 'the same',
  listClientMerges: 'two records are seldom made one',
  listClientLinks: 'few are told to be family',
};
/** Of what is open only; here nobody does any of it. */
const open = ['tasks'];

/** After every record there is. */
const newest = 'ffffffff-ffff-7fff-bfff-ffffffffffff';

interface Done {
  readonly operation: string;
  readonly statements: readonly Statement[];
}

let api: TestApi;
let admin: pg.Client;
let here: TestStudio;
let ids: Record<string, string>;
let log: PlanLog;
let tenantTables: ReadonlySet<string>;
/** How many rows the studio has of those tables of which it has more than a page. */
let bigTables: ReadonlyMap<string, number>;
const done: Done[] = [];

beforeAll(async () => {
  const database = await createTestDatabase();
  admin = new pg.Client({ connectionString: database.adminUrl });
  await admin.connect();
  await explainEverything(admin, asIfLarge);
  api = await startTestApi({}, database);
  here = await openTestStudio(api);
  ids = await makeEveryRecord(here);
  log = new PlanLog(path.join(dataFolder('test'), 'logs', 'postgres.log'));
});

beforeAll(async () => {
  const model = await modelOf(admin, here.studio.studioId);
  await admin.query('SET session_replication_role = replica');
  // No visit meets another: what the model has lies within forty days.
  const spread = { seed: 1, visits: 1, daysApart: 40, firstDay: -40 * copies };
  await copyClients(admin, model, { from: 0, until: copies, studios: 1, spread });
  await admin.query('ANALYZE');
  const { rows } = await admin.query<{ name: string; size: number }>(
    `SELECT relname AS name, reltuples AS size FROM pg_class
      WHERE relnamespace = 'public'::regnamespace AND relkind IN ('r', 'p') AND relrowsecurity AND relname <> 'studio_handles'`,
  );
  tenantTables = new Set(rows.map(({ name }) => name));
  bigTables = new Map(rows.filter(({ size }) => size > fewRows).map(({ name, size }) => [name, size]));
});

beforeAll(async () => {
  log.next();
  const work = async (operation: string, ask: () => Promise<unknown>): Promise<void> => {
    await ask();
    done.push({ operation, statements: log.next() });
  };
  const { studio, owner, desk, serviceId, roomId } = here;
  const { email, password } = studio.owner;
  const body = { studio: studio.handle, email, password };
  const { accessToken: token } = await dataOf(openClient(api.url).POST('/v1/sign-ins', { body }));
  const headers = { authorization: `Bearer ${token}` };

  const reads = operations.filter(({ method, id }) => method === 'GET' && !notAsked.includes(id));
  for (const operation of reads) {
    await work(operation.id, async () => {
      expect((await call(api.url, operation, { ids, token })).status).toBeLessThan(500);
    });
  }
  // Of lists, one client's, one record's and the last page.
  const wanted = { clientId: ids['clientId'] ?? '', recordId: ids['fitSessionId'] ?? '', after: newest };
  for (const { id, path: route, parameters } of reads.filter((one) => !one.path.includes('{'))) {
    for (const [name, value] of Object.entries(wanted)) {
      if (!parameters.some((one) => one.name === name && one.required !== true)) continue;
      await work(`${id} by ${name}`, async () => {
        const response = await fetch(`${api.url}${route}?${name}=${value}`, { headers });
        expect(response.status).toBeLessThan(500);
        // Unread, it would keep the API from closing.
        await response.text();
      });
    }
  }

  const client = await takeOnClient(owner, 'another@riders.example');
  await work('looking for a name', () =>
    dataOf(desk.GET('/v1/clients', { params: { query: { name: 'zz' } } })),
  );
  await work('taking on a client', () => takeOnClient(owner, 'one-more@riders.example'));
  await work('screening', () => screen(owner, client.clientId));
  await work('holding and booking', () => {
    const startsAt = '2091-03-02T09:00:00Z';
    const visit = { clientId: client.clientId, serviceId, roomId, fitterId: owner.signedIn.id, startsAt };
    return dataOf(desk.POST('/v1/appointments', { body: visit }));
  });
  await work('recording and signing a session', () => signedSession(owner, client));
});

afterAll(async () => {
  log.close();
  await admin.end();
  await api.close();
});

/** What is wrong with how rows were found, each once. */
function wrong(
  of: readonly Done[],
  isWrong: (scan: Statement['scans'][number], operation: string) => boolean,
) {
  const found = of.flatMap(({ operation, statements }) =>
    statements.flatMap(({ text, scans }) =>
      scans
        .filter((scan) => bigTables.has(scan.table) && isWrong(scan, operation))
        .map(({ table, how, rows, condition }) => ({ operation, table, how, rows, condition, text })),
    ),
  );
  return [...new Map(found.map((one) => [one.table + one.text, one])).values()];
}
const withoutStudio = (of: readonly Done[]) =>
  wrong(of, ({ condition }) => !condition.includes('studio_id = '));
/** As good as all that the studio has. */
const nearlyAll = 0.9;
const wholeTables = (of: readonly Done[]) =>
  wrong(of, ({ table, rows }, operation) => {
    const excused = open.includes(table) || (operation.split(' ')[0] ?? '') in wholeStudio;
    return !excused && rows >= nearlyAll * (bigTables.get(table) ?? Infinity);
  });

describe('every statement of a hot path', () => {
  it('was seen', () => {
    expect(done.filter(({ statements }) => statements.length > 0).length).toBeGreaterThan(100);
    expect([...bigTables.keys()]).toEqual(
      expect.arrayContaining(['appointments', 'clients', 'fit_sessions', 'measurements', 'payments']),
    );
  });

  it('finds rows of a big table by an index that leads with the studio', () => {
    expect(withoutStudio(done)).toEqual([]);
  });

  it('reads but some of them, not all that the studio has', () => {
    expect(wholeTables(done)).toEqual([]);
  });

  it('names the studio in its own words, so that it can be sent to where the studio lives', async () => {
    const untied = new Map<string, string[]>();
    for (const text of new Set(done.flatMap(({ statements }) => statements.map((one) => one.text)))) {
      const tables = await untiedTables(text, tenantTables);
      if (tables.length > 0) untied.set(text, tables);
    }
    expect(Object.fromEntries(untied)).toEqual({});
  });

  it('would be told of, did it not', async () => {
    const planted = 'SELECT count(*) FROM measurements WHERE unit = $1';
    const client = new pg.Client({ connectionString: api.database.apiUrl });
    await client.connect();
    await client.query(`SELECT set_config('app.studio_id', $1, false)`, [here.studio.studioId]);
    log.next();
    await client.query(planted, ['mm']);
    await client.end();
    expect(wholeTables([{ operation: 'planted', statements: log.next() }])).toHaveLength(1);
    expect(await untiedTables(planted, tenantTables)).toEqual(['measurements']);
  });
});

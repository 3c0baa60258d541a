import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { randomUUID } from 'node:crypto';
import pg from 'pg';
import { nothingWrong, screen, signedSession, takeOnClient } from '../helpers/rider.js';
import { openTestStudio, startTestApi, type TestApi } from '../helpers/studio.js';

type Row = Record<string, unknown>;

/** Tables of no studio, each with why. */
const ofNoStudio = new Map([
  ['migrations', 'what was migrated'],
  ['test_clock', 'one clock for all; empty outside tests'],
  ['mail_pace', 'mail domains and when the next mail may go to each; names no person'],
  ['worker_heartbeats', 'a worker works for all studios'],
  ['studio_handles', 'read before anybody has signed in: it leads from the handle to the studio'],
]);
/** Policies that show more than a studio's own, each of them on purpose. */
const moreThanOwn = [
  // The owner's, whose functions make months of the audit log and let them go.
  'audit_entries_other_of_owner',
  'audit_seals_of_owner',
  'outbox_finished_by_relay',
  'outbox_found_by_relay',
  'studio_handles_of_studio',
  'studio_handles_readable',
];
/** A studio's own row is known by its id. */
const studioColumn = (table: string): string => (table === 'studios' ? 'id' : 'studio_id');

let api: TestApi;
let studioId: string;
let tables: string[];

beforeAll(async () => {
  api = await startTestApi();
  const here = await openTestStudio(api);
  studioId = here.studio.studioId;
  const client = await takeOnClient(here.owner);
  const screening = await screen(here.owner, client.clientId, {
    ...nothingWrong,
    calf_pain_on_walking: 'yes',
  });
  await here.owner.POST('/v1/screenings/{screeningId}/clearance', {
    params: { path: { screeningId: screening.id ?? '' } },
    body: { reason: 'Seen; may ride.', clearedByClinician: 'Dr A. Holm, reg. 00000' },
  });
  const { fitSessionId } = await signedSession(here.owner, client);
  await here.owner.POST('/v1/fit-sessions/{fitSessionId}/amendments', {
    params: { path: { fitSessionId } },
    body: { text: 'the stem is 100 mm' },
  });
  const { serviceId, roomId } = here;
  const fitterId = here.owner.signedIn.id;
  const startsAt = '2090-03-02T09:00:00Z';
  const { data: site } = await here.owner.POST('/v1/sites', { body: { name: 'Quay' } });
  await here.owner.POST('/v1/benches', { body: { name: 'Bench' } });
  await here.owner.POST('/v1/weekly-hours', {
    body: { weekdays: [1], from: '08:00', until: '18:00', validFrom: '2026-01-01', siteId: site?.id ?? '' },
  });
  await here.owner.POST('/v1/hours-exceptions', {
    body: { kind: 'closed', reason: 'closure', firstDay: '2026-12-24', lastDay: '2026-12-26' },
  });
  await here.owner.POST('/v1/webhook-endpoints', {
    body: { url: 'http://127.0.0.1:9/', events: ['appointment.booked'] },
  });
  await here.desk.POST('/v1/appointments', {
    params: { header: { 'Idempotency-Key': 'once' } },
    body: { clientId: client.clientId, serviceId, roomId, fitterId, startsAt },
  });
  const all = await ask(api.database.adminUrl, `SELECT tablename FROM pg_tables WHERE schemaname = 'public'`);
  tables = all.map(({ tablename }) => String(tablename)).filter((table) => !ofNoStudio.has(table));
});
afterAll(() => api.close());

describe('every table of a studio', () => {
  it('is under row-level security that binds its owner too', async () => {
    const rows = await ask(
      api.database.adminUrl,
      `SELECT relname FROM pg_class
        WHERE relnamespace = 'public'::regnamespace AND relkind IN ('r', 'p') AND relrowsecurity AND relforcerowsecurity`,
    );
    // Who owns a handle may not be changed by another studio, though all may read it.
    expect(rows.map(({ relname }) => relname).sort()).toEqual([...tables, 'studio_handles'].sort());
  });

  it('has the one policy that shows and takes rows of the studio only', async () => {
    const rows = await ask(
      api.database.adminUrl,
      `SELECT tablename, policyname, qual, with_check FROM pg_policies WHERE schemaname = 'public' ORDER BY 1, 2`,
    );
    const expected = tables.map((tablename) => {
      const own = `(${studioColumn(tablename)} = app_studio_id())`;
      return { tablename, policyname: `${tablename}_of_studio`, qual: own, with_check: own };
    });
    const others = rows.filter(({ policyname }) => !expected.some((one) => one.policyname === policyname));
    expect(rows.filter((row) => !others.includes(row))).toEqual(
      expected.sort((one, other) => (one.tablename < other.tablename ? -1 : 1)),
    );
    expect(others.map(({ policyname }) => policyname)).toEqual(moreThanOwn);
  });

  it('leads every key, unique index and exclusion with the studio', async () => {
    const rows = await ask(
      api.database.adminUrl,
      `SELECT c.relname AS "table", i.relname AS "index", a.attname AS leads
         FROM pg_index x
         JOIN pg_class c ON c.oid = x.indrelid
         JOIN pg_class i ON i.oid = x.indexrelid
         LEFT JOIN pg_attribute a ON a.attrelid = c.oid AND a.attnum = x.indkey[0]
        WHERE c.relnamespace = 'public'::regnamespace AND (x.indisunique OR x.indisexclusion)
          AND c.relname = ANY ($1)`,
      [tables],
    );
    expect(new Set(rows.map(({ table }) => table))).toEqual(new Set(tables));
    expect(rows.filter(({ table, leads }) => leads !== studioColumn(String(table)))).toEqual([]);
  });

  it('refers to another only together with the studio', async () => {
    const rows = await ask(
      api.database.adminUrl,
      `SELECT k.conname FROM pg_constraint k
         JOIN pg_attribute a ON a.attrelid = k.conrelid AND a.attnum = k.conkey[1]
        WHERE k.contype = 'f' AND k.connamespace = 'public'::regnamespace AND a.attname <> 'studio_id'`,
    );
    expect(rows).toEqual([]);
  });
});

describe.each(['apiUrl', 'workerUrl'] as const)('%s', (role) => {
  /** The relay looks for what is due in every studio; that is the worker's one view across them. */
  const acrossStudios = role === 'workerUrl' ? ['outbox'] : [];
  const visible = async (table: string, studio: string | null): Promise<number | 'denied'> => {
    try {
      const [row] = await ask(api.database[role], `SELECT count(*)::integer AS n FROM ${table}`, [], studio);
      return Number(row?.['n']);
    } catch (error) {
      if ((error as { code?: string }).code === '42501') return 'denied';
      throw error;
    }
  };

  it('sees a studio’s rows as that studio, none as another and none as nobody', async () => {
    const seen: string[] = [];
    for (const table of tables.filter((name) => !acrossStudios.includes(name))) {
      const own = await visible(table, studioId);
      const others = [await visible(table, randomUUID()), await visible(table, null)];
      if (own !== 0) seen.push(table);
      const nothing = own === 'denied' ? 'denied' : 0;
      expect([table, ...others]).toEqual([table, nothing, nothing]);
    }
    expect(seen.length).toBeGreaterThanOrEqual(18);
  });

  it('cannot write a row of another studio', async () => {
    const written: string[] = [];
    for (const table of tables) {
      const [row] = await ask(api.database.adminUrl, `SELECT to_jsonb(t) AS row FROM ${table} t LIMIT 1`);
      if (row === undefined) continue;
      // Not what PostgreSQL computes itself.
      const [{ names } = {}] = await ask(
        api.database.adminUrl,
        `SELECT string_agg(quote_ident(attname), ', ') AS names FROM pg_attribute
          WHERE attrelid = $1::regclass AND attnum > 0 AND NOT attisdropped AND attgenerated = ''`,
        [table],
      );
      const insert = `INSERT INTO ${table} (${String(names)}) SELECT ${String(names)} FROM jsonb_populate_record(NULL::${table}, $1)`;
      const refused = ask(api.database[role], insert, [JSON.stringify(row['row'])], randomUUID());
      await expect(refused).rejects.toMatchObject({ code: '42501' });
      written.push(table);
    }
    expect(written.length).toBeGreaterThanOrEqual(20);
  });
});

async function ask(
  url: string,
  statement: string,
  values: unknown[] = [],
  studio: string | null = null,
): Promise<Row[]> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    if (studio !== null) await client.query(`SELECT set_config('app.studio_id', $1, false)`, [studio]);
    return (await client.query<Row>(statement, values)).rows;
  } finally {
    await client.end();
  }
}

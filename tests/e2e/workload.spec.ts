import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf, type components } from '@studio/api-client';
import { parse } from 'csv-parse/sync';
import pg from 'pg';
import { freeLine, issuedReceipt, setUpAccounts } from '../helpers/accounts.js';
import { takeOnClient } from '../helpers/rider.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';

type Workload = components['schemas']['WorkloadResponse'];
type Row = Record<string, unknown>;

let api: TestApi;
let studio: TestStudio;
let database: pg.Client;
let siteId: string;
let roomIds: readonly string[];
let fitterIds: readonly string[];

/** Two weeks in which the clock is put forward, on the 26th. */
const period = { from: '2090-03-18', until: '2090-03-31' };

beforeAll(async () => {
  api = await startTestApi();
  studio = await openTestStudio(api);
  database = new pg.Client({ connectionString: api.database.adminUrl });
  await database.connect();
  const { owner, roomId, serviceId } = studio;
  siteId = (await dataOf(owner.POST('/v1/sites', { body: { name: 'Quay' } }))).id;
  const there = await dataOf(owner.POST('/v1/rooms', { body: { name: 'Quay bay', siteId } }));
  const person = { email: 'second@fitters.example', displayName: 'Second', roles: ['fitter' as const] };
  const second = await dataOf(
    owner.POST('/v1/staff', { body: { ...person, password: 'a password for tests only' } }),
  );
  roomIds = [roomId, there.id];
  fitterIds = [owner.signedIn.id, second.id];
  const week = { weekdays: [1, 2, 3, 4, 5, 6, 7], validFrom: '2026-01-01' };
  const hours = (body: Partial<components['schemas']['CreateWeeklyHoursRequest']>) =>
    dataOf(owner.POST('/v1/weekly-hours', { body: { ...week, from: '00:00', until: '20:00', ...body } }));
  await hours({});
  await hours({
    staffId: second.id,
    from: '01:00',
    until: '16:30',
    breaks: [{ from: '12:00', until: '12:45' }],
  });
  await dataOf(
    owner.POST('/v1/hours-exceptions', {
      body: { kind: 'closed', reason: 'closure', firstDay: '2090-03-24', lastDay: '2090-03-24' },
    }),
  );
  const { clientId } = await takeOnClient(owner);
  // 400 visits at random that overlap nobody: fitter and room go together, a slot of 40 minutes each.
  await database.query(
    `INSERT INTO appointments (studio_id, client_id, service_id, fitter_id, room_id, during, occupied, curing, bench_id,
                               state, cancelled_late, cancelled_by, cancel_reason, hold_expires_at)
     SELECT $1, $2, $3, (ARRAY[$4, $5]::uuid[])[which], (ARRAY[$6, $7]::uuid[])[which],
            tstzrange(at + interval '5 minutes', at + interval '35 minutes'),
            tstzrange(at, at + interval '35 minutes' + (n % 2) * interval '5 minutes'),
            NULL, NULL, state, CASE state WHEN 'cancelled' THEN n % 3 = 0 END,
            CASE state WHEN 'cancelled' THEN (ARRAY['client', 'studio'])[1 + n % 2] END,
            CASE state WHEN 'cancelled' THEN 'Ill.' END, NULL
       FROM (SELECT n, 1 + n % 2 AS which,
                    '2090-03-15T00:00:00Z'::timestamptz + (n / 2) * interval '2 hours 5 minutes' AS at,
                    (ARRAY['booked', 'completed', 'completed', 'checked_in', 'no_show', 'cancelled', 'lapsed'])[1 + (n * 7919 + n / 11) % 7] AS state
               FROM generate_series(0, 399) n) v`,
    [studio.studio.studioId, clientId, serviceId, ...fitterIds, ...roomIds],
  );
});
afterAll(async () => {
  await database.end();
  await api.close();
});

const ask = async (query: object = {}): Promise<Workload> =>
  dataOf(studio.owner.GET('/v1/outcomes/workload', { params: { query: { ...period, ...query } } }));
const sql = async (text: string, values: unknown[] = []): Promise<Row[]> =>
  (await database.query<Row>(text, values)).rows;
const csv = async (query: object = {}): Promise<Row[]> => {
  const { data } = await studio.owner.GET('/v1/outcomes/workload.csv', {
    params: { query: { ...period, ...query } },
    parseAs: 'text',
  });
  return parse(data as unknown as string, { columns: true, bom: true });
};

/** A visit of the period, by the days on the wall. */
const ofPeriod = `state NOT IN ('held', 'lapsed')
  AND (lower(during) AT TIME ZONE 'Europe/Copenhagen')::date BETWEEN '2090-03-18' AND '2090-03-31'`;

describe('the work of a period', () => {
  it('counts visits as plain SQL counts them', async () => {
    const [counted] = await sql(
      `SELECT count(*)::int AS planned, sum((state IN ('checked_in', 'completed'))::int)::int AS attended,
              sum((state = 'no_show')::int)::int AS "noShows", sum((state = 'booked')::int)::int AS booked,
              sum((state = 'cancelled' AND cancelled_late AND cancelled_by = 'client')::int)::int AS "cancelledLate",
              sum((state = 'cancelled' AND NOT (cancelled_late AND cancelled_by = 'client'))::int)::int AS cancelled
         FROM appointments WHERE ${ofPeriod}`,
    );
    const { visits, fitters } = await ask();
    expect(visits).toEqual(counted);
    for (const [part, count] of Object.entries(visits)) {
      expect(count).toBeGreaterThan(0);
      expect(fitters.reduce((sum, fitter) => sum + fitter[part as 'planned'], 0)).toBe(count);
    }
  });

  it('sets hours booked against hours open as one does who looks at every minute', async () => {
    // Studio 00:00 to 20:00, the second fitter 01:00 to 16:30 but for a break; closed on the 24th.
    const minutes = await sql(
      `SELECT count(*) FILTER (WHERE wall::time < '20:00')::int AS room,
              count(*) FILTER (WHERE wall::time >= '01:00' AND wall::time < '16:30'
                                 AND NOT (wall::time >= '12:00' AND wall::time < '12:45'))::int AS fitter
         FROM (SELECT generate_series('2090-03-17T00:00:00Z'::timestamptz, '2090-04-02T00:00:00Z', interval '1 minute')
                        AT TIME ZONE 'Europe/Copenhagen' AS wall) w
        WHERE wall::date BETWEEN '2090-03-18' AND '2090-03-31' AND wall::date <> '2090-03-24'`,
    );
    const booked = await sql(
      `SELECT fitter_id, room_id, (SELECT count(*) FROM generate_series(lower(occupied), upper(occupied), interval '1 minute') m
                             WHERE m < upper(occupied))::int AS minutes
         FROM appointments WHERE ${ofPeriod} AND state <> 'cancelled'`,
    );
    const bookedMinutes = (column: string, id: string): number =>
      booked.filter((row) => row[column] === id).reduce((sum, row) => sum + Number(row['minutes']), 0);
    const { fitters, rooms } = await ask();
    const open = (id: string) => Number(minutes[0]?.[id === fitterIds[1] ? 'fitter' : 'room']) / 60;
    for (const { fitterId, bookedHours, openHours, utilisation } of fitters) {
      expect(bookedHours).toBeCloseTo(bookedMinutes('fitter_id', fitterId) / 60, 9);
      expect(openHours).toBeCloseTo(open(fitterId), 9);
      expect(utilisation).toBeCloseTo(bookedHours / open(fitterId), 9);
    }
    for (const { roomId, bookedHours, openHours } of rooms) {
      expect(bookedHours).toBeCloseTo(bookedMinutes('room_id', roomId) / 60, 9);
      expect(openHours).toBeCloseTo(open(roomId), 9);
    }
    expect([fitters.length, rooms.length]).toEqual([2, 2]);
  });

  it('is told of one fitter, and of one site', async () => {
    const [, second = ''] = fitterIds;
    const all = await ask();
    const one = await ask({ fitterId: second });
    expect(one.fitters).toEqual(all.fitters.filter(({ fitterId }) => fitterId === second));
    expect(one.visits.planned).toBe(one.fitters[0]?.planned);
    expect(one.referrals).toBeNull();
    const site = await ask({ siteId });
    expect(site.rooms.map(({ name }) => name)).toEqual(['Quay bay']);
    expect(site.visits).toEqual(one.visits);
  });

  it('does not tell hours open where none are recorded', async () => {
    const other = await openTestStudio(api);
    const { fitters, rooms, visits } = await dataOf(
      other.owner.GET('/v1/outcomes/workload', { params: { query: period } }),
    );
    expect(fitters).toMatchObject([{ openHours: null, utilisation: null, bookedHours: 0 }]);
    expect(rooms).toMatchObject([{ openHours: null }]);
    expect(visits.planned).toBe(0);
  });

  it('is the owner’s to see, and at most a year of it', async () => {
    const desk = await studio.desk.GET('/v1/outcomes/workload', { params: { query: period } });
    expect(desk.response.status).toBe(403);
    const long = { from: '2090-01-01', until: '2091-01-02' };
    const { error } = await studio.owner.GET('/v1/outcomes/workload', { params: { query: long } });
    expect(error).toMatchObject({ status: 400, errors: [{ field: 'until' }] });
  });
});

describe('revenue', () => {
  it('is what lines of receipts say less credit notes, by month, fitter and site', async () => {
    await setUpAccounts(studio.owner);
    const [visit] = await sql(
      `SELECT id, client_id FROM appointments WHERE fitter_id = $1 AND state = 'completed' LIMIT 1`,
      [fitterIds[1]],
    );
    const [appointmentId, clientId] = [String(visit?.['id']), String(visit?.['client_id'])];
    const lines = [freeLine(10_000, { appointmentId }), freeLine(500)];
    const receipts = [];
    for (let n = 0; n < 6; n += 1) receipts.push(await issuedReceipt(studio.desk, { clientId, lines }));
    await dataOf(
      studio.desk.POST('/v1/account-documents/{documentId}/credit-notes', {
        params: { path: { documentId: receipts[0]?.id ?? '' } },
        body: { reason: 'Mistake.', lines: [{ lineId: receipts[0]?.lines[0]?.id ?? '', amountMinor: 4000 }] },
      }),
    );
    await issuedReceipt(studio.desk, { lines: [freeLine(77)] });
    const day = (receipts[0]?.issuedAt ?? '').slice(0, 10);
    const around = (days: number) => new Date(Date.parse(day) + days * 86_400_000).toISOString().slice(0, 10);
    const now = { from: around(-1), until: around(1) };
    const { revenue } = await ask(now);
    const plain = await sql(
      `SELECT a.fitter_id AS "fitterId", r.site_id AS "siteId",
              sum(l.gross_minor * CASE d.kind WHEN 'receipt' THEN 1 ELSE -1 END)::int AS "grossMinor",
              sum(l.net_minor * CASE d.kind WHEN 'receipt' THEN 1 ELSE -1 END)::int AS "netMinor"
         FROM account_lines l JOIN account_documents d ON d.id = l.document_id
         LEFT JOIN appointments a ON a.id = l.appointment_id LEFT JOIN rooms r ON r.id = a.room_id
        WHERE d.studio_id = $1 AND d.state = 'issued' GROUP BY 1, 2 ORDER BY 1`,
      [studio.studio.studioId],
    );
    expect(revenue).toMatchObject(plain);
    expect(revenue).toMatchObject([
      { fitterId: fitterIds[1], siteId, grossMinor: 56_000, receipts: 6, currency: 'EUR' },
      { fitterId: null, siteId: null, grossMinor: 3077, receipts: 7 },
    ]);
    expect((await ask({ ...now, fitterId: fitterIds[0] ?? '' })).revenue).toEqual([]);
    const rows = await csv(now);
    expect(
      rows.find(({ name, statistic }) => statistic === 'gross' && String(name).includes('Second')),
    ).toMatchObject({
      ...{ value: '560', unit: 'EUR', hidden: 'false' },
    });
  });
});

describe('on paper and for a spreadsheet', () => {
  it('has the numbers of the answer, small counts hidden', async () => {
    const rows = await csv();
    const { visits } = await ask();
    expect(rows[0]).toMatchObject({ section: 'visits', statistic: 'planned', value: String(visits.planned) });
    const few = await csv({ from: '2090-03-18', until: '2090-03-18' });
    const { fitters } = await ask({ from: '2090-03-18', until: '2090-03-18' });
    expect(fitters.some(({ noShows, attended }) => noShows + attended > 0)).toBe(true);
    for (const { unit, value, hidden } of few) {
      if (unit !== 'visits' || hidden === 'true') continue;
      expect([0, ...[5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 21, 22, 23, 24]]).toContain(
        Number(value),
      );
    }
    const { data, response } = await studio.owner.GET('/v1/outcomes/workload.pdf', {
      params: { query: period },
      parseAs: 'arrayBuffer',
    });
    expect(response.headers.get('content-type')).toBe('application/pdf');
    expect(Buffer.from(data as ArrayBuffer).toString('latin1', 0, 5)).toBe('%PDF-');
    const [audited] = await sql(
      `SELECT count(*)::int AS n FROM audit_entries WHERE action = 'outcomes.export-workload'`,
    );
    expect(audited?.['n']).toBeGreaterThanOrEqual(3);
  });
});

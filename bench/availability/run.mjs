// node bench/availability/run.mjs    a month of slots, 20 fitters, 15 rooms, 5,000 bookings: in milliseconds a request
import { dataOf, openClient, signIn } from '@studio/api-client';
import { randomBytes, randomUUID } from 'node:crypto';
import pg from 'pg';
import { startApi } from '../../scripts/services/apps.mjs';
import { built, installed } from '../../scripts/services/build.mjs';
import { migratedDatabase } from '../../scripts/services/database.mjs';
import { launch } from '../../scripts/services/launch.mjs';
import { dropDatabase } from '../../scripts/services/roles.mjs';
import { secretsOf } from '../../scripts/services/secrets.mjs';
import { postgresService } from '../../scripts/services/services.mjs';
import { step } from '../../scripts/services/step.mjs';

const database = 'studio_bench_availability';
const requests = 60;
const aimMs = 50;

await launch('bench', 'a benchmark', async (processes) => {
  await installed(processes);
  await built(processes);
  const { openStudio } = await import('../../seed/dist/open-studio.js');
  const secrets = secretsOf(processes.folder);
  const adminUrl = await postgresService(processes, { throwaway: true });
  await dropDatabase(adminUrl, database);
  const urls = await migratedDatabase(processes, {
    adminUrl,
    database,
    passwords: secrets.passwords,
    testClock: false,
  });
  const studio = {
    studioId: randomUUID(),
    handle: 'bench',
    name: 'Bench',
    timeZone: 'Europe/Copenhagen',
    owner: { email: 'owner@bench.example', displayName: 'Owner', password: randomBytes(12).toString('hex') },
  };
  await openStudio(urls.ownerUrl, studio);
  const ownAdminUrl = Object.assign(new URL(adminUrl), { pathname: `/${database}` }).href;
  const serviceId = await step('booking 5,000 visits', () => fillMonth(ownAdminUrl, studio.studioId));

  const apiUrl = await startApi(processes, { urls, secrets });
  const { email, password } = studio.owner;
  const { accessToken } = await dataOf(
    openClient(apiUrl).POST('/v1/sign-ins', { body: { studio: studio.handle, email, password } }),
  );
  const ask = async () => {
    const asked = `serviceId=${serviceId}&firstDay=2090-03-01&lastDay=2090-03-31`;
    const began = performance.now();
    const response = await fetch(`${apiUrl}/v1/availability?${asked}`, {
      headers: { authorization: `Bearer ${accessToken}` },
    });
    const text = await response.text();
    const ms = performance.now() - began;
    if (response.status !== 200) throw new Error(text);
    return { ms, text };
  };
  const { text: body } = await ask();
  const client = await signIn(apiUrl, { studio: studio.handle, email, password });
  const query = { serviceId, firstDay: '2090-03-01', lastDay: '2090-03-31' };
  const { days } = await dataOf(client.GET('/v1/availability', { params: { query } }));
  const slots = days.flatMap((day) => day.slots);
  if (days.length !== 31 || slots.length < 100)
    throw new Error('the month has hardly a slot: nothing is measured');
  for (let warming = 0; warming < 20; warming += 1) await ask();
  /** @type {number[]} */
  const times = [];
  for (let n = 0; n < requests; n += 1) times.push((await ask()).ms);
  times.sort((one, other) => one - other);
  const at = (/** @type {number} */ share) => (times[Math.floor(share * (requests - 1))] ?? NaN).toFixed(1);
  console.log(
    `\n${slots.length} starts on ${days.length} days, ${(body.length / 1024).toFixed(0)} KiB; ${requests} requests one after another, ` +
      `whole API, ms: median ${at(0.5)}, least ${at(0)}, 95th of 100 ${at(0.95)} (aim: median under ${aimMs})`,
  );
  return Number(at(0.5)) < aimMs ? 0 : 1;
});

/**
 * Every fitter and room works eight to six with a break; in each room eleven visits a day, one after another.
 *
 * @param {string} adminUrl
 * @param {string} studioId
 * @returns {Promise<string>} the service to ask for
 */
async function fillMonth(adminUrl, studioId) {
  const client = new pg.Client({ connectionString: adminUrl });
  await client.connect();
  /**
   * @param {string} sql
   * @returns {Promise<{ id: string }[]>}
   */
  const run = async (sql) => {
    /** @type {pg.QueryResult<{ id: string }>} */
    const { rows } = await client.query(sql, [studioId]);
    return rows;
  };
  try {
    await run(`INSERT INTO users (studio_id, email, display_name, password_hash, roles, skills)
      SELECT $1, 'f' || n || '@bench.example', 'Fitter ' || n, '-', '{fitter}', '{cleat_fitting}'
        FROM generate_series(1, 20) n`);
    await run(`INSERT INTO rooms (studio_id, name, equipment)
      SELECT $1, 'Room ' || n, '{motion_capture}' FROM generate_series(1, 15) n`);
    const [service] = await run(`INSERT INTO services
      (studio_id, name, duration_minutes, buffer_before_minutes, buffer_after_minutes, required_skills, required_equipment)
      VALUES ($1, 'Check', 15, 5, 5, '{cleat_fitting}', '{motion_capture}') RETURNING id`);
    const hours = `'{1,2,3,4,5,6,7}', 480, 1110, '[{"fromMinutes": 720, "untilMinutes": 735}]', date '2026-01-01'`;
    for (const [column, table] of [
      ['staff_id', 'users'],
      ['room_id', 'rooms'],
    ])
      await run(`INSERT INTO weekly_hours
        (studio_id, ${column}, weekdays, from_minutes, until_minutes, breaks, valid_from)
        SELECT studio_id, id, ${hours} FROM ${table} WHERE studio_id = $1`);
    await run(`INSERT INTO clients (studio_id, given_name, family_name) VALUES ($1, 'Robin', 'Rider')`);
    const booked = await run(`WITH
      fitter AS (SELECT id, row_number() OVER (ORDER BY id) - 1 AS n FROM users WHERE studio_id = $1 AND skills <> '{}'),
      room AS (SELECT id, row_number() OVER (ORDER BY id) - 1 AS n FROM rooms WHERE studio_id = $1),
      visit AS (
        SELECT room.id AS room_id, fitter.id AS fitter_id,
               timestamptz '2090-03-01 07:00Z' + make_interval(days => day, mins => 55 * k) AS start
          FROM generate_series(0, 30) day, generate_series(0, 10) k, room
          JOIN fitter ON true WHERE fitter.n = (room.n + k * 5) % 20
         ORDER BY day, k, room.n LIMIT 5000)
      INSERT INTO appointments (studio_id, client_id, service_id, fitter_id, room_id, during, occupied)
      SELECT $1, (SELECT id FROM clients WHERE studio_id = $1), (SELECT id FROM services WHERE studio_id = $1),
             fitter_id, room_id, tstzrange(start, start + interval '20 minutes'),
             tstzrange(start, start + interval '20 minutes')
        FROM visit RETURNING id`);
    if (booked.length !== 5000) throw new Error(`${booked.length} visits were booked, not 5,000`);
    await client.query('VACUUM ANALYZE');
    return service?.id ?? '';
  } finally {
    await client.end();
  }
}

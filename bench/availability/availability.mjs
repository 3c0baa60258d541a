import { dataOf } from '@studio/api-client';
import { isDeepStrictEqual } from 'node:util';
import pg from 'pg';
import { step } from '../../scripts/services/step.mjs';
import { inTurn, timesPerSecond } from '../figures.mjs';
import { openForBench } from '../studio.mjs';
import { slotsSql } from './slots-by-sql.mjs';

const database = 'studio_bench_availability';
const [firstDay, lastDay] = ['2090-03-01', '2090-03-31'];

/**
 * A month of slots of a studio with 20 fitters, 15 rooms and 5,000 bookings, through the whole API, against hand-written
 * SQL that finds the same.
 *
 * @param {import('../../scripts/services/processes.mjs').Processes} processes
 * @param {{ rounds: number, seconds: number }} length
 * @returns {Promise<import('../figures.mjs').Figure[]>}
 */
export async function availability(processes, { rounds, seconds }) {
  const { adminUrl, owner, studioId } = await openForBench(processes, { database });
  const serviceId = await step('booking 5,000 visits', () => fillMonth(adminUrl, studioId));
  const query = { serviceId, firstDay, lastDay };
  const byApi = () => dataOf(owner.GET('/v1/availability', { params: { query } }));
  const admin = new pg.Client({ connectionString: adminUrl });
  await admin.connect();
  try {
    const values = [studioId, serviceId, firstDay, lastDay, 'Europe/Copenhagen'];
    const bySql = async () => {
      /** @type {pg.QueryResult<import('./slots-by-sql.mjs').SlotBySql>} */
      const { rows } = await admin.query({ name: 'slots', text: slotsSql, values });
      return rows;
    };
    sameSlots(await byApi(), await bySql());
    const contenders = {
      api: () => timesPerSecond(seconds, byApi),
      sql: () => timesPerSecond(seconds, bySql),
    };
    for (const warmUp of Object.values(contenders)) await warmUp();
    const found = await step('looking for slots', () => inTurn(rounds, contenders));
    return [
      {
        figure: 'a month of slots, 20 fitters, 15 rooms, 5,000 visits',
        measured: { name: 'API', unit: 'months/s', rounds: found.api },
        baseline: { name: 'hand-written SQL', unit: 'months/s', rounds: found.sql },
        aim: 0.6,
      },
    ];
  } finally {
    await admin.end();
  }
}

/**
 * A baseline that finds something else would prove nothing.
 *
 * @param {import('@studio/api-client').components['schemas']['SlotsResponse']} month
 * @param {readonly import('./slots-by-sql.mjs').SlotBySql[]} expected
 */
function sameSlots(month, expected) {
  const found = month.days.flatMap(({ slots }) =>
    slots.map(({ startsAt, fitterIds, roomIds }) => ({ startsAt, fitterIds, roomIds })),
  );
  if (found.length < 100) throw new Error('the month has hardly a slot: nothing is measured');
  const bySql = expected.map((slot) => ({ ...slot, startsAt: slot.startsAt.toISOString() }));
  if (!isDeepStrictEqual(found, bySql)) throw new Error('the API and SQL find different slots');
}

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

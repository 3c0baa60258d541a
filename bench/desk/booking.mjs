import { dataOf, signIn } from '@studio/api-client';
import { randomBytes, randomUUID } from 'node:crypto';
import pg from 'pg';
import { step } from '../../scripts/services/step.mjs';
import { inTurn } from '../figures.mjs';
import { recordStatements, sendAgain } from '../record-statements.mjs';
import { inThisProcess, openForBench } from '../studio.mjs';

const database = 'studio_bench_booking';
/** As many people book at once, each with a fitter and a room of their own. */
const desks = 10;
const firstAt = Date.parse('2090-01-01T00:00:00Z');
const visitMs = 30 * 60_000;

/**
 * Booking a visit through the whole API, against a client that sends the statements of one such booking again, prepared:
 * the same SQL for another time, without anything around it.
 *
 * @param {import('../../scripts/services/processes.mjs').Processes} processes
 * @param {{ rounds: number, seconds: number }} length
 * @returns {Promise<import('../figures.mjs').Figure[]>}
 */
export async function booking(processes, { rounds, seconds }) {
  const bench = await openForBench(processes, { database });
  const { apiUrl, credentials, headers, owner, studioId, urls } = bench;
  const desk = await setUp(owner);

  const statements = await step('recording a booking', () =>
    inThisProcess(bench, async (url) => {
      const client = await signIn(url, credentials);
      const body = visit(desk, 0, firstAt);
      return recordStatements(() => dataOf(client.POST('/v1/appointments', { body })));
    }),
  );
  if (!statements.some(({ text }) => /insert into "?appointments"?/i.test(text))) {
    throw new Error('no booking was recorded');
  }

  const connections = await Promise.all(
    Array.from({ length: desks }, async () => {
      const connection = new pg.Client({ connectionString: urls.apiUrl });
      await connection.connect();
      return connection;
    }),
  );
  const ids = [studioId, owner.signedIn.id, desk.clientId, desk.serviceId, ...desk.fitters, ...desk.rooms];
  const known = new Set(ids);
  /** How many slots each desk has used up; the first is the recorded one. */
  const used = Array.from({ length: desks }, () => 1);
  /** @param {(desk: number, at: number) => Promise<unknown>} book */
  const perSecond = async (book) => {
    const until = performance.now() + seconds * 1000;
    const begun = performance.now();
    let booked = 0;
    await Promise.all(
      used.map(async (_, index) => {
        while (performance.now() < until) {
          await book(index, firstAt + (used[index] ?? 0) * visitMs);
          used[index] = (used[index] ?? 0) + 1;
          booked += 1;
        }
      }),
    );
    return (booked * 1000) / (performance.now() - begun);
  };
  const contenders = {
    api: () =>
      perSecond(async (index, at) => {
        const response = await fetch(`${apiUrl}/v1/appointments`, {
          method: 'POST',
          headers: { ...headers, 'content-type': 'application/json' },
          body: JSON.stringify(visit(desk, index, at)),
        });
        const text = await response.text();
        if (response.status !== 201) throw new Error(text);
      }),
    prepared: () =>
      perSecond((index, at) => {
        const instead = new Map([
          [desk.fitters[0] ?? '', desk.fitters[index] ?? ''],
          [desk.rooms[0] ?? '', desk.rooms[index] ?? ''],
        ]);
        const connection = /** @type {pg.Client} */ (connections[index]);
        return sendAgain(connection, statements, {
          known,
          shiftMs: at - firstAt,
          instead,
          newId: randomUUID,
        });
      }),
  };
  await step('warming up', async () => {
    await contenders.api();
    await contenders.prepared();
    // Else both would go on with plans made for empty tables.
    await analyse(bench.adminUrl);
  });
  const values = await step('booking', () => inTurn(rounds, contenders));
  await allBooked(urls.apiUrl, studioId, used);
  for (const connection of connections) await connection.end();
  return [
    {
      figure: `booking a visit, ${desks} desks at once`,
      measured: { name: 'API', unit: 'bookings/s', rounds: values.api },
      baseline: {
        name: `the same ${statements.length} statements, prepared`,
        unit: 'bookings/s',
        rounds: values.prepared,
      },
      aim: 0.6,
    },
  ];
}

/** @param {string} adminUrl */
async function analyse(adminUrl) {
  const client = new pg.Client({ connectionString: adminUrl });
  await client.connect();
  await client.query('ANALYZE');
  await client.end();
}

/** @typedef {{ clientId: string, serviceId: string, fitters: string[], rooms: string[] }} Desk */

/** @param {Desk} desk @param {number} index @param {number} at */
function visit({ clientId, serviceId, fitters, rooms }, index, at) {
  const startsAt = new Date(at).toISOString();
  return { clientId, serviceId, fitterId: fitters[index] ?? '', roomId: rooms[index] ?? '', startsAt };
}

/** @param {import('@studio/api-client').StudioClient} owner @returns {Promise<Desk>} */
async function setUp(owner) {
  const client = { givenName: 'Robin', familyName: 'Rider' };
  const { id: clientId } = await dataOf(owner.POST('/v1/clients', { body: client }));
  const consent = { kind: /** @type {const} */ ('data'), textVersion: '1' };
  await dataOf(
    owner.POST('/v1/clients/{clientId}/consents', { params: { path: { clientId } }, body: consent }),
  );
  const offered = { name: 'Fit', durationMinutes: 30 };
  const { id: serviceId } = await dataOf(owner.POST('/v1/services', { body: offered }));
  const fitters = [];
  const rooms = [];
  for (let index = 0; index < desks; index += 1) {
    const person = {
      email: `fitter${index}@bench.example`,
      displayName: `Fitter ${index}`,
      roles: [/** @type {const} */ ('fitter')],
    };
    const body = { ...person, password: randomBytes(12).toString('hex') };
    fitters.push((await dataOf(owner.POST('/v1/staff', { body }))).id);
    rooms.push((await dataOf(owner.POST('/v1/rooms', { body: { name: `Room ${index}` } }))).id);
  }
  return { clientId, serviceId, fitters, rooms };
}

/**
 * A baseline that left something out would prove nothing: whoever booked, each visit has its row, its history and its
 * entry in the audit log.
 *
 * @param {string} url @param {string} studioId @param {readonly number[]} used
 */
async function allBooked(url, studioId, used) {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    await client.query(`SELECT set_config('app.studio_id', $1, false)`, [studioId]);
    const { rows } = await client.query(
      `SELECT (SELECT count(*) FROM appointments)::int AS visits,
              (SELECT count(DISTINCT appointment_id) FROM appointment_changes)::int AS changes,
              (SELECT count(DISTINCT record_id) FROM audit_entries WHERE action = 'appointments.create')::int AS audited`,
    );
    // Of the other desks the recorded slot stays empty.
    const expected = used.reduce((sum, count) => sum + count, 0) - (desks - 1);
    /** @type {unknown[]} */
    const found = rows;
    const { visits, changes, audited } = /** @type {Record<string, number>} */ (found[0]);
    if (visits !== expected || changes !== expected || audited !== expected) {
      throw new Error(`${expected} visits were to be booked: ${JSON.stringify(rows[0])}`);
    }
  } finally {
    await client.end();
  }
}

import { dataOf, signIn } from '@studio/api-client';
import { hash } from '@node-rs/argon2';
import { randomBytes } from 'node:crypto';
import pg from 'pg';
import { startApi } from '../../scripts/services/apps.mjs';
import { migratedDatabase } from '../../scripts/services/database.mjs';
import { dropDatabase } from '../../scripts/services/roles.mjs';
import { secretsOf } from '../../scripts/services/secrets.mjs';
import { postgresService } from '../../scripts/services/services.mjs';
import { step } from '../../scripts/services/step.mjs';
import { inTurn, timesPerSecond } from '../figures.mjs';
import { fillSummaries } from './fill-summaries.mjs';
import { inventedId, inventSessions } from './invented-sessions.mjs';
import { fromScratch, fromSummaries, reviewSql } from './review-by-sql.mjs';

const database = 'studio_bench_reviews';
const studios = 200;

/**
 * One studio's review through the whole API, against hand-written SQL that takes its plain numbers (no intervals, no
 * tests) straight from the record.
 *
 * @param {import('../../scripts/services/processes.mjs').Processes} processes
 * @param {{ rounds: number, seconds: number, followUps: number }} options follow-ups of all studios
 * @returns {Promise<import('../figures.mjs').Figure[]>}
 */
export async function reviews(processes, { rounds, seconds, followUps }) {
  const secrets = secretsOf(processes.folder);
  const adminUrl = await postgresService(processes, { throwaway: true });
  await dropDatabase(adminUrl, database);
  const urls = await migratedDatabase(processes, {
    adminUrl,
    database,
    passwords: secrets.passwords,
    testClock: false,
  });
  const admin = new pg.Client({
    connectionString: Object.assign(new URL(adminUrl), { pathname: `/${database}` }).href,
  });
  await admin.connect();
  try {
    const size = { seed: 1, studios, sessionsPerStudio: followUps / studios / 2, now: new Date() };
    await step(`inventing ${followUps.toLocaleString('en')} follow-ups of ${studios} studios`, () =>
      inventSessions(admin, size),
    );
    await step('filling the summaries', async () => {
      await fillSummaries(admin);
      await admin.query('VACUUM ANALYZE');
    });
    const studioId = inventedId('studio', 7, 0);
    const owner = await ownerOf(admin, studioId);
    const apiUrl = await startApi(processes, { urls, secrets });
    const client = await signIn(apiUrl, owner);

    const midfoot = /** @type {const} */ ({ intervention: 'midfoot' });
    const isMidfoot = 'cleat_moved_back_mm >= 2 AND cleat_short_of_midfoot_mm <= 3';
    /** @param {{ intervention?: 'midfoot' }} query */
    const byApi = (query) => dataOf(client.GET('/v1/outcomes/review', { params: { query } }));
    /** @param {string} outcomes @param {string} condition */
    const bySql = async (outcomes, condition) => {
      const name = `${outcomes.length}-${condition}`;
      const text = reviewSql(outcomes, condition);
      /** @type {pg.QueryResult<import('./review-by-sql.mjs').ReviewBySql>} */
      const { rows } = await admin.query({ name, text, values: [studioId] });
      const [row] = rows;
      if (row === undefined) throw new Error('an aggregate gives a row');
      return row;
    };
    sameNumbers(await byApi({}), await bySql(fromScratch, 'true'));
    sameNumbers(await byApi(midfoot), await bySql(fromSummaries, isMidfoot));

    const contenders = {
      all: () => timesPerSecond(seconds, () => byApi({})),
      few: () => timesPerSecond(seconds, () => byApi(midfoot)),
      scratch: () => timesPerSecond(seconds, () => bySql(fromScratch, 'true')),
    };
    for (const warmUp of Object.values(contenders)) await warmUp();
    const values = await step('reviewing', () => inTurn(rounds, contenders));
    const name = `one studio’s review, ${(followUps / studios).toLocaleString('en')} of ${followUps.toLocaleString('en')} follow-ups`;
    const measured = { name: 'API', unit: 'reviews/s', rounds: values.all };
    /** @param {string} baseline @param {number[]} found */
    const against = (baseline, found) => ({ name: baseline, unit: 'reviews/s', rounds: found });
    return [
      {
        figure: name,
        measured,
        baseline: against('SQL from the record, plain numbers only', values.scratch),
        aim: 0.9,
      },
      {
        figure: 'the same of its midfoot riders (16 %)',
        measured: { name: 'API', unit: 'reviews/s', rounds: values.few },
        baseline: against('API, all riders', values.all),
        aim: 2,
      },
    ];
  } finally {
    await admin.end();
  }
}

/**
 * @param {pg.Client} admin
 * @param {string} studioId
 */
async function ownerOf(admin, studioId) {
  const password = randomBytes(12).toString('hex');
  const studio = 'bench-reviews';
  await admin.query('INSERT INTO studio_handles (handle, studio_id) VALUES ($1, $2)', [studio, studioId]);
  const { rows } = await admin.query(
    'UPDATE users SET password_hash = $2 WHERE studio_id = $1 RETURNING email',
    [studioId, await hash(password)],
  );
  return { studio, email: /** @type {{ email: string }[]} */ (rows)[0]?.email ?? '', password };
}

/**
 * A baseline with other numbers would prove nothing.
 *
 * @param {import('@studio/api-client').components['schemas']['OutcomeReviewResponse']} review
 * @param {import('./review-by-sql.mjs').ReviewBySql} expected
 */
function sameNumbers(review, expected) {
  const same =
    review.sessions === expected.sessions &&
    review.measures.every(({ measure, n, meanChange }) => {
      const { n: bySql, mean } = expected.measures[measure];
      return n === bySql && Math.abs((meanChange ?? NaN) - mean) < 1e-9;
    });
  if (!same) throw new Error('the review and SQL differ');
}

import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { type TenantContext } from '@studio/database';
import { randomUUID } from 'node:crypto';
import pg from 'pg';
import { inventedId, inventSessions } from '../../../../../bench/reviews/invented-sessions.mjs';
import { fillSummaries } from '../../../../../bench/reviews/fill-summaries.mjs';
import { fromScratch, reviewSql, type ReviewBySql } from '../../../../../bench/reviews/review-by-sql.mjs';
import { createTestDatabase, type TestDatabase } from '../../../../../tests/helpers/database.js';
import { connect, type Connected } from '../../../../../tests/helpers/keys.js';
import type { CompareQuery } from './review-query.dto.js';
import type { Measure, OutcomeReviewResponse } from './review.dto.js';
import { ReviewsService } from './reviews.service.js';

const options = { seed: 5, studios: 2, sessionsPerStudio: 300, now: new Date() };
const studioId = inventedId('studio', 0, 0);
const ctx: TenantContext = { studioId, userId: null, roles: ['owner'], requestId: 'test' };

let database: TestDatabase;
let admin: pg.Client;
let connected: Connected;
let reviews: ReviewsService;

beforeAll(async () => {
  database = await createTestDatabase();
  admin = new pg.Client({ connectionString: database.adminUrl });
  await admin.connect();
  await inventSessions(admin, options);
  await fillSummaries(admin);
  connected = await connect(database.apiUrl, 2);
  reviews = new ReviewsService(connected.transaction);
});
afterAll(async () => {
  await connected.close();
  await admin.end();
  await database.drop();
});

const bySql = async (condition: string): Promise<ReviewBySql> =>
  (await admin.query(reviewSql(fromScratch, condition), [studioId])).rows[0] as ReviewBySql;

const measureOf = (review: OutcomeReviewResponse, measure: Measure) => {
  const found = review.measures.find((item) => item.measure === measure);
  if (!found) throw new Error(`no ${measure}`);
  return found;
};

describe('a review', () => {
  const onBike = (condition: string): string =>
    `fit_session_id IN (SELECT s.id FROM fit_sessions s JOIN bikes b ON b.id = s.bike_id WHERE ${condition})`;
  const cases: [string, CompareQuery, string][] = [
    ['all riders', {}, 'true'],
    [
      'riders with the cleat at midfoot',
      { intervention: 'midfoot' },
      'cleat_moved_back_mm >= 2 AND cleat_short_of_midfoot_mm <= 3',
    ],
    [
      'riders with the cleat moved back, whose cleat moved back by 20 mm or more and less than 40 mm',
      { intervention: 'cleat_back', cleatBackFromMm: 20, cleatBackBelowMm: 40 },
      'cleat_moved_back_mm >= 20 AND cleat_moved_back_mm < 40',
    ],
    ['riders in pain before', { complaint: 'pain' }, 'pain_before > 0'],
    [
      'riders with another saddle height, with numb feet before',
      { intervention: 'saddle_height', complaint: 'numb_feet' },
      'abs(saddle_change_left_mm) >= 3 AND numbness_before',
    ],
    [
      'riders on a gravel bike, riding for racing',
      { bikeKind: 'gravel', bikeUse: 'racing' },
      onBike(`b.kind = 'gravel' AND 'racing' = ANY (b.uses)`),
    ],
    [
      'riders of one fitter',
      { fitterId: inventedId('user', 0, 1) },
      `fitter_id = '${inventedId('user', 0, 1)}'`,
    ],
  ];

  it.each(cases)('of %s has the numbers plain SQL finds in the record', async (words, query, condition) => {
    const [review, expected] = await Promise.all([reviews.review(ctx, query), bySql(condition)]);
    expect(expected.sessions).toBeGreaterThan(20);
    expect(review).toMatchObject({
      group: words,
      sessions: expected.sessions,
      answered: expected.answered,
      missing: expected.sessions - expected.answered,
    });
    for (const [measure, { n, mean, sd, median, upper }] of Object.entries(expected.measures)) {
      const found = measureOf(review, measure as Measure);
      expect([found.n, found.missing]).toEqual([n, expected.sessions - n]);
      expect(found.meanChange).toBeCloseTo(mean, 9);
      expect(found.change?.standardDeviation).toBeCloseTo(sd, 9);
      expect(found.change?.median).toBeCloseTo(median, 9);
      expect(found.after?.upperQuartile).toBeCloseTo(upper, 9);
    }
  });

  it('of one site speaks of those fitted in a room there', async () => {
    const siteId = randomUUID();
    await admin.query(`INSERT INTO sites (studio_id, id, name, time_zone) VALUES ($1, $2, 'Quay', 'UTC')`, [
      studioId,
      siteId,
    ]);
    // Signed sessions stay as they are; only the test may say where they were.
    await admin.query(`SET session_replication_role = replica`);
    await admin.query(
      `WITH room AS (INSERT INTO rooms (studio_id, name, site_id) VALUES ($1, 'Quay bay', $2) RETURNING id),
            service AS (INSERT INTO services (studio_id, name, duration_minutes) VALUES ($1, 'Quay fit', 30) RETURNING id),
            chosen AS (SELECT id, client_id, fitter_id, row_number() OVER (ORDER BY id) AS n
                         FROM fit_sessions WHERE studio_id = $1 AND signed_at IS NOT NULL ORDER BY id LIMIT 120),
            visit AS (INSERT INTO appointments (studio_id, client_id, service_id, fitter_id, room_id, during, occupied)
                      SELECT $1, c.client_id, service.id, c.fitter_id, room.id, t.span, t.span FROM room, service, chosen c,
                        LATERAL (SELECT tstzrange('2020-01-01'::timestamptz + c.n * interval '1 hour',
                                                  '2020-01-01'::timestamptz + c.n * interval '1 hour' + interval '30 minutes')
                                          AS span) t
                      RETURNING id, client_id, during)
       UPDATE fit_sessions s SET appointment_id = visit.id FROM visit, chosen
        WHERE s.studio_id = $1 AND s.id = chosen.id
          AND lower(visit.during) = '2020-01-01'::timestamptz + chosen.n * interval '1 hour'`,
      [studioId, siteId],
    );
    await admin.query(`SET session_replication_role = origin`);
    const expected = await bySql(
      `fit_session_id IN (SELECT s.id FROM fit_sessions s JOIN appointments a ON a.id = s.appointment_id
                            JOIN rooms r ON r.id = a.room_id WHERE r.site_id = '${siteId}')`,
    );
    const found = await reviews.review(ctx, { siteId });
    expect(found).toMatchObject({ group: 'riders at one site', sessions: expected.sessions });
    expect(found.sessions).toBeGreaterThan(20);
    expect(found.sessions).toBeLessThan((await reviews.review(ctx, {})).sessions);
  });

  it('counts every missing value once, under one reason', async () => {
    const review = await reviews.review(ctx, {});
    const sum = (counts: object): number =>
      Object.values(counts).reduce<number>((total, count) => total + Number(count), 0);
    expect(sum(review.missingBecause)).toBe(review.missing);
    expect(review.missingBecause.couldNotBeAsked).toBeGreaterThan(0);
    for (const { n, missing, missingBecause } of review.measures) {
      expect(sum(missingBecause)).toBe(missing);
      expect(n + missing).toBe(review.sessions);
    }
    const { responders } = measureOf(review, 'pain');
    expect((responders?.better ?? 0) + (responders?.noRealChange ?? 0) + (responders?.worse ?? 0)).toBe(
      measureOf(review, 'pain').n,
    );
  });

  it('counts a client who came twice once', async () => {
    const { sessions, earlierSessions } = await reviews.review(ctx, {});
    expect([sessions, earlierSessions]).toEqual([270, 30]);
  });

  it('counts how a sprint and standing feel, and tells of walking what was told', async () => {
    const { sprint, standing, walkingComfort, sessions } = await reviews.review(ctx, {});
    const [bySqlNow] = (
      await admin.query(
        `SELECT count(*) FILTER (WHERE sprint_feel IN ('worse', 'much_worse'))::int AS worse,
                count(*) FILTER (WHERE sprint_feel <> 'not_tried')::int AS tried,
                count(standing_feel)::int AS standing, avg(walking_comfort)::float8 AS walking
           FROM (SELECT DISTINCT ON (client_id) * FROM outcome_summaries WHERE studio_id = $1
                  ORDER BY client_id, signed_at DESC) AS newest`,
        [studioId],
      )
    ).rows as [{ worse: number; tried: number; standing: number; walking: number }];
    expect(bySqlNow.worse).toBeGreaterThan(10);
    expect([sprint.worse + sprint.muchWorse, sprint.n]).toEqual([bySqlNow.worse, bySqlNow.tried]);
    expect(standing.n + standing.notTried).toBe(bySqlNow.standing);
    expect(walkingComfort.after?.mean).toBeCloseTo(bySqlNow.walking, 9);
    for (const { n, missing, notTried } of [sprint, standing]) expect(n + missing + notTried).toBe(sessions);
    expect(sprint.sentence).toContain(`Of ${sprint.n} who had tried,`);
    expect(sprint.shareWorse).toBeCloseTo(bySqlNow.worse / bySqlNow.tried, 9);
  });

  it('corrects p for the five measures asked about, and leaves predicted and left out of it', async () => {
    const { measures } = await reviews.review(ctx, {});
    expect(measures.map(({ test }) => test === null)).toEqual([false, false, false, false, false, true]);
    for (const { test } of measures) {
      if (test) expect(test.correctedP).toBeGreaterThanOrEqual(test.p ?? 2);
    }
  });

  it('takes the days of a period by the clock of the studio', async () => {
    const [{ signed_at: signedAt }] = (
      await admin.query(`SELECT signed_at FROM fit_sessions WHERE id = $1`, [inventedId('session', 0, 150)])
    ).rows as [{ signed_at: Date }];
    // Twenty minutes past midnight in Copenhagen, still the day before in UTC.
    const day = signedAt.toISOString().slice(0, 10);
    await admin.query(
      `UPDATE outcome_summaries SET signed_at = ($2::date::timestamp AT TIME ZONE 'Europe/Copenhagen') + interval '20 minutes'
        WHERE fit_session_id = $1`,
      [inventedId('session', 0, 150), day],
    );
    const count = async (query: CompareQuery) => (await reviews.review(ctx, query)).sessions;
    const [all, before, onTheDay, after] = [
      await count({}),
      await count({ until: dayBefore(day) }),
      await count({ from: day, until: day }),
      await count({ from: dayAfter(day) }),
    ];
    expect(onTheDay).toBeGreaterThanOrEqual(1);
    // Clients who came twice may be counted in two periods.
    expect(before + onTheDay + after).toBeGreaterThanOrEqual(all);
    const [{ n }] = (
      await admin.query(
        `SELECT count(DISTINCT client_id)::int AS n FROM outcome_summaries
          WHERE studio_id = $1 AND (signed_at AT TIME ZONE 'Europe/Copenhagen')::date = $2`,
        [studioId, day],
      )
    ).rows as [{ n: number }];
    expect(onTheDay).toBe(n);
  });

  it('sees no other studio', async () => {
    const elsewhere = await reviews.review({ ...ctx, studioId: inventedId('studio', 1, 0) }, {});
    const nowhere = await reviews.review({ ...ctx, studioId: inventedId('studio', 7, 0) }, {});
    expect(elsewhere.sessions).toBe(270);
    expect(nowhere).toMatchObject({ sessions: 0, answered: 0, missing: 0 });
    expect(nowhere.measures.every(({ n, change }) => n === 0 && change === null)).toBe(true);
  });
});

describe('“did the midfoot riders lose 20-minute power?”', () => {
  it('is answered in a sentence with its interval, the same as in the review', async () => {
    const query = { intervention: 'midfoot' } as const;
    const [power, review] = await Promise.all([reviews.power(ctx, query), reviews.review(ctx, query)]);
    expect(power).toEqual(review.power);
    expect(power.question).toBe(
      'Did riders with the cleat at midfoot lose 20-minute power, by more than 2 %?',
    );
    expect(power.answer).toMatch(
      /^(No|Yes|It cannot be said): in \d+ riders with the cleat at midfoot it changed by [+−]?\d+\.\d % on average \(95 % interval [+−]?\d+\.\d % to [+−]?\d+\.\d %\); .*\d+ of \d+ have no value before and after\. Nobody was randomised\.$/,
    );
    const { low, high } = power.interval95Percent ?? { low: NaN, high: NaN };
    expect(low).toBeLessThan(power.lowerBound95Percent ?? NaN);
    expect(high).toBeGreaterThan(power.upperBound95Percent ?? NaN);
  });

  it('is “no” only while the bound stays above the margin', async () => {
    const margins = await Promise.all(
      [1, 2, 5, 20].map((powerMarginPercent) =>
        reviews.power(ctx, { intervention: 'midfoot', powerMarginPercent }),
      ),
    );
    for (const { verdict, lowerBound95Percent, upperBound95Percent, marginPercent } of margins) {
      expect(verdict === 'not worse').toBe((lowerBound95Percent ?? NaN) > -marginPercent);
      expect(verdict === 'worse').toBe((upperBound95Percent ?? NaN) < -marginPercent);
    }
    expect(margins.at(-1)?.verdict).toBe('not worse');
  });

  it('cannot be said of nobody, nor of five', async () => {
    expect(await reviews.power(ctx, { from: '2090-01-01' })).toMatchObject({ verdict: 'cannot tell', n: 0 });
  });
});

describe('beside the others', () => {
  it('stands as not randomised, nobody in both groups', async () => {
    const [review, alone] = await Promise.all([
      reviews.review(ctx, { intervention: 'midfoot', compareWith: 'others' }),
      reviews.review(ctx, { intervention: 'midfoot' }),
    ]);
    const { comparison, ...rest } = review;
    expect(rest).toEqual({ ...alone, comparison: undefined });
    expect(comparison).toMatchObject({ randomised: false, others: 270 - review.sessions });
    expect(comparison?.caution).toMatch(/^Not randomised/);
    const pain = comparison?.measures.find(({ measure }) => measure === 'pain');
    expect(pain?.sentence).toMatch(/not randomised/);
    // At midfoot pain falls by 3 instead of 2.
    expect(pain?.interval95?.low).toBeLessThan(-1);
    expect(pain?.interval95?.high).toBeGreaterThan(-1);
  });

  it('needs a change to choose by', async () => {
    await expect(reviews.review(ctx, { compareWith: 'others' })).rejects.toMatchObject({ status: 422 });
  });
});

const dayAfter = (day: string, days = 1): string =>
  new Date(Date.parse(`${day}T12:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10);
const dayBefore = (day: string): string => dayAfter(day, -1);

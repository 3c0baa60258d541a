import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf, openClient } from '@studio/api-client';
import type { ChildProcess } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import { daysPassToMorning } from '../../seed/src/story/weeks-later.js';
import { eventually, mailsTo } from '../helpers/mail.js';
import { nothingNew, openMeasuredSession, screen, signedSession, takeOnClient } from '../helpers/rider.js';
import { sendRide, steadyRide } from '../helpers/ride.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';
import { startWorker, stop } from '../helpers/worker.js';

let api: TestApi;
let studio: TestStudio;
let worker: ChildProcess;

beforeAll(async () => {
  api = await startTestApi();
  studio = await openTestStudio(api);
  worker = startWorker(api, `t${randomUUID().slice(0, 8)}`);
});
afterAll(async () => {
  await stop(worker);
  await api.close();
});

const daysPass = (days: number) => daysPassToMorning(studio.owner, days);

async function answer(
  email: string,
  week: number,
  reported: { pain: number; comfort: number },
  told: Record<string, string> = {},
  ride?: string,
) {
  const mail = await eventually(`the mail of week ${week}`, 20, async () =>
    (await mailsTo(email))
      .filter(({ subject }) => subject === 'How is your new position?')
      .at(week === 2 ? 0 : 1),
  );
  const link = /follow-up\/(\S+)/.exec(mail.text)?.[1] ?? '';
  if (ride !== undefined) expect((await sendRide(`${api.url}/follow-up/${link}`, ride)).status).toBe(200);
  const body = { ...reported, numbness: false, power20MinW: 244, answers: { ...nothingNew, ...told } };
  await dataOf(
    openClient(api.url).POST('/v1/follow-up-links/{link}/answers', { params: { path: { link } }, body }),
  );
}

describe('from a signature to what can be said', () => {
  const email = 'outcomes@riders.example';
  let of: { params: { path: { fitSessionId: string } } };

  const summaryOf = (version: number) =>
    eventually(`version ${version}`, 20, async () => {
      const { data } = await studio.owner.GET('/v1/fit-sessions/{fitSessionId}/client-summary', of);
      return data?.version === version ? data : undefined;
    });

  beforeAll(async () => {
    const client = await takeOnClient(studio.owner, email);
    await screen(studio.desk, client.clientId);
    const { fitSessionId } = await signedSession(studio.owner, client);
    of = { params: { path: { fitSessionId } } };
  });

  it('a session nobody answered for counts as missing, by reason', async () => {
    await daysPass(15);
    const review = await eventually('the session in the review', 20, async () => {
      const { data } = await studio.owner.GET('/v1/outcomes/review');
      return data?.missingBecause.noAnswer === 1 ? data : undefined;
    });
    expect(review).toMatchObject({ group: 'all riders', sessions: 1, answered: 0, missing: 1 });
    const { response } = await studio.owner.GET('/v1/fit-sessions/{fitSessionId}/client-summary', of);
    expect(response.status).toBe(404);
  });

  it('each answer makes a new version of what the client can be told; the older one stays', async () => {
    await answer(email, 2, { pain: 5, comfort: 45 });
    const first = await summaryOf(1);
    expect(first.measures.map(({ measure, verdict }) => [measure, verdict])).toEqual([
      ['pain', 'no real change'],
      ['comfort', 'no real change'],
      ['power_20_min_w', 'no real change'],
      ['chosen_activities', 'cannot tell'],
      ['global_change', 'cannot tell'],
    ]);
    expect(first).toMatchObject({
      numbness: { verdict: 'better' },
      saddle: { leftMm: -15, asPredicted: true },
    });

    await daysPass(28);
    const { now } = await dataOf(studio.owner.POST('/v1/test-clock/advance', { body: { seconds: 1 } }));
    const ride = steadyRide({ startsAt: new Date(Date.parse(now) - 86_400_000), minutes: 21, powerW: 281 });
    const told = { overall_change: '4', sprint_feel: 'better' };
    await answer(email, 6, { pain: 1, comfort: 80 }, told, ride);
    const second = await summaryOf(2);
    // Told were 244 W: the recording shows more.
    expect(second.measures[2]).toMatchObject({ measure: 'power_20_min_w', after: 281 });
    expect(second.told).toEqual({ walkingComfort: null, sprintFeel: 'better', standingFeel: null });
    expect(second.measures.at(-1)).toMatchObject({ after: 4, important: 2.5, verdict: 'better' });
    expect(second.course.map(({ week, pain }) => [week, pain])).toEqual([
      [0, 6],
      [2, 5],
      [6, 1],
    ]);
    expect(second.text).toContain('Pain on the bike: 6 of 10 before, 1 of 10 now: better.');
    expect(second.text).not.toContain('Robin');

    const { path } = of.params;
    const old = await dataOf(
      studio.owner.GET('/v1/fit-sessions/{fitSessionId}/client-summary', {
        params: { path, query: { version: 1 } },
      }),
    );
    expect(old).toEqual(first);
  });

  it('is drawn over the weeks, with its words and numbers', async () => {
    const drawing = await dataOf(
      studio.owner.GET('/v1/fit-sessions/{fitSessionId}/client-summary/drawing', of),
    );
    expect(drawing.svg).toMatch(/^<svg .*<\/svg>$/);
    expect(drawing.description).toContain('Pain on the bike (of 10): before 6, week 2 5, week 6 1.');
    // Four measures at three times: nobody named an activity.
    expect(drawing.rows).toHaveLength(12);
  });

  it('the review is drawn and goes out as CSV and PDF', async () => {
    const drawings = await dataOf(studio.owner.GET('/v1/outcomes/review/drawings'));
    expect(drawings.map(({ name }) => name)).toEqual([
      'funnel',
      'forest',
      ...['pain', 'comfort', 'power_20_min_w'].flatMap((measure) => [
        `slopes_${measure}`,
        `distribution_${measure}`,
      ]),
      'distribution_global_change',
    ]);
    const csv = await studio.owner.GET('/v1/outcomes/review.csv', { parseAs: 'text' });
    expect(csv.response.headers.get('content-type')).toBe('text/csv; charset=utf-8');
    expect(csv.response.headers.get('content-disposition')).toBe('attachment; filename="outcomes.csv"');
    expect(csv.data).toContain('all riders,group,,sessions,,,,,true,');
    const pdf = await studio.owner.GET('/v1/outcomes/review.pdf', { parseAs: 'arrayBuffer' });
    expect(pdf.response.headers.get('content-type')).toBe('application/pdf');
    expect(Buffer.from(pdf.data as ArrayBuffer).toString('latin1', 0, 5)).toBe('%PDF-');
  });

  it('is not for the front desk', async () => {
    for (const path of [
      '/v1/outcomes/review.csv',
      '/v1/outcomes/review.pdf',
      '/v1/outcomes/power',
    ] as const) {
      expect((await studio.desk.GET(path, { parseAs: 'text' })).response.status).toBe(403);
    }
    const { response } = await studio.desk.GET('/v1/fit-sessions/{fitSessionId}/client-summary', of);
    expect(response.status).toBe(403);
  });
});

describe('the studio’s own offset', () => {
  const apply = (offsetMm: number, replacesVersion: number) =>
    studio.owner.POST('/v1/outcomes/saddle-offsets', {
      body: { offsetMm, because: 'Left higher than computed, all year.', replacesVersion },
    });
  const planOf = async (fitSessionId: string) =>
    dataOf(
      studio.owner.POST('/v1/fit-sessions/{fitSessionId}/cleat-plans', {
        params: { path: { fitSessionId } },
        body: { side: 'left' },
      }),
    );

  it('changes nothing until the owner applies it, and then only plans made from then on', async () => {
    const client = await takeOnClient(studio.owner, 'offset@riders.example');
    await screen(studio.desk, client.clientId);
    const fitSessionId = await openMeasuredSession(studio.owner, client);
    const before = await planOf(fitSessionId);
    expect(before.saddleOffsetMm).toBe(0);

    expect((await dataOf(studio.owner.GET('/v1/outcomes/model-check'))).inForce).toMatchObject({
      version: 0,
    });
    expect(await dataOf(apply(1.5, 0))).toMatchObject({ version: 1, offsetMm: 1.5 });
    const after = await planOf(fitSessionId);
    expect(after.saddleOffsetMm).toBe(1.5);
    for (const [index, option] of after.options.entries()) {
      expect(option.saddleHeightChangeMm).toEqual(before.options[index]?.saddleHeightChangeMm);
      expect(option.expectedSaddleHeightChangeMm).toBeCloseTo(option.saddleHeightChangeMm.value + 1.5, 9);
    }
    const session = await dataOf(
      studio.owner.GET('/v1/fit-sessions/{fitSessionId}', { params: { path: { fitSessionId } } }),
    );
    expect(session.cleatPlans.map(({ saddleOffsetMm }) => saddleOffsetMm)).toEqual([0, 1.5]);
  });

  it('is versioned: of two who replace the same one, one is told it is gone', async () => {
    const both = await Promise.all([apply(2, 1), apply(3, 1)]);
    expect(both.map(({ response }) => response.status).sort()).toEqual([201, 412]);
    const offsets = await dataOf(studio.owner.GET('/v1/outcomes/saddle-offsets'));
    expect(offsets.map(({ version }) => version)).toEqual([2, 1]);
    expect(await dataOf(apply(0, 2))).toMatchObject({ version: 3, offsetMm: 0 });
  });

  it('is the owner’s alone', async () => {
    const body = { offsetMm: 1, because: 'No.', replacesVersion: 3 };
    expect((await studio.desk.POST('/v1/outcomes/saddle-offsets', { body })).response.status).toBe(403);
    expect((await studio.desk.GET('/v1/outcomes/model-check')).response.status).toBe(403);
  });
});

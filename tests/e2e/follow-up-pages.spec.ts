import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf, openClient } from '@studio/api-client';
import { askFirstFollowUp } from '../helpers/follow-up.js';
import { askedOn, send, visit, type Visited } from '../helpers/intake.js';
import { nothingNew, nothingWrong, onlyNew, screen, signedSession, takeOnClient } from '../helpers/rider.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';

let api: TestApi;
let studio: TestStudio;

beforeAll(async () => {
  api = await startTestApi();
  studio = await openTestStudio(api);
});
afterAll(() => api.close());

const activities = [
  { activity: 'Ride three hours without numb toes', ability: 3 },
  { activity: 'Climb standing', ability: 5 },
];

/** A signed session whose rider named what to do better, asked two weeks on: the client and the path of the pages. */
async function asked(): Promise<{ clientId: string; path: string }> {
  const client = await takeOnClient(studio.owner);
  await screen(studio.desk, client.clientId);
  await signedSession(studio.owner, client, async (fitSessionId) => {
    const of = { params: { path: { fitSessionId } }, body: { activities } };
    await dataOf(studio.owner.PUT('/v1/fit-sessions/{fitSessionId}/chosen-activities', of));
  });
  return { clientId: client.clientId, path: await askFirstFollowUp(api, studio, client.clientId) };
}

const answers = {
  ...nothingNew,
  foot_numb_on_bike: 'no',
  pain: 2,
  comfort: 80,
  walking_comfort: 9,
  activity_1: 8,
  activity_2: 7,
  rides_since: 'four_to_ten',
  longest_ride_hours: '3,5',
  sprint_feel: 'same',
  standing_feel: 'better',
  power_20_min_w: 251,
  overall_change: '3',
};

const open = (path: string): Promise<Visited> => visit(`${api.url}${path}`);
const begin = (path: string): Promise<Visited> => visit(`${api.url}${path}/start`, []);

/** Page by page to the review; the keys that were asked, in order. */
async function through(
  first: Visited,
  given: Record<string, unknown>,
): Promise<{ end: Visited; keys: string[] }> {
  const keys: string[] = [];
  let page = first;
  for (let at = 0; at < 40 && page.path.includes('/pages/'); at += 1) {
    keys.push(...askedOn(page));
    page = await send(api.url, page, given);
  }
  return { end: page, keys };
}

const detail = async (clientId: string) => {
  const of = { params: { path: { clientId } } };
  const { items } = await dataOf(studio.desk.GET('/v1/clients/{clientId}/follow-ups', of));
  const followUpId = items[0]?.id ?? '';
  return dataOf(studio.owner.GET('/v1/follow-ups/{followUpId}', { params: { path: { followUpId } } }));
};

describe('the follow-up pages', () => {
  it('ask how it went, in the rider’s own words too; every answer is kept, and the link is spent', async () => {
    const { clientId, path } = await asked();
    const start = await open(path);
    expect(start.html).toContain('Your bike was fitted 2 weeks ago.');
    expect(start.html).not.toContain('name="consent"');
    const { end, keys } = await through(await begin(path), answers);
    expect(keys).toEqual([
      ...['anything_new', 'complaint_sites', 'pain', 'foot_numb_on_bike', 'comfort', 'walking_comfort'],
      ...['activity_1', 'activity_2', 'rides_since', 'longest_ride_hours', 'sprint_feel', 'standing_feel'],
      ...['saddle_height_mm', 'power_20_min_w', 'same_course_now_min', 'same_course_before_min'],
      ...['overall_change', 'worry'],
    ]);
    expect(end.path).toBe(`${path}/review`);
    expect(end.html).toContain('How well can you do this: “Climb standing”?');

    const done = await visit(`${api.url}${path}/submit`, []);
    expect(done.html).toContain('Your answers are with');
    expect((await open(path)).status).toBe(410);
    expect((await open(path)).html).toContain('You have answered already');

    const kept = await detail(clientId);
    expect(kept).toMatchObject({ state: 'answered' });
    expect(Object.fromEntries(kept.answers.map(({ question, answer }) => [question, answer]))).toMatchObject({
      activity_1: '8 of 10',
      longest_ride_hours: '3.5 hours',
      overall_change: '+3',
      standing_feel: 'Better',
    });
  });

  it('keep what was answered so far, and ask again for what was left out', async () => {
    const { path } = await asked();
    const first = await begin(path);
    const wrong = await send(api.url, first, {});
    expect([wrong.status, wrong.html.includes('There is a problem')]).toEqual([422, true]);
    const second = await send(api.url, first, { anything_new: 'no' });
    expect(askedOn(second)).toEqual(['complaint_sites']);
    // Coming back another day goes on from there.
    expect(askedOn(await begin(path))).toEqual(['complaint_sites']);
    const where = await send(api.url, second, { complaint_sites: [] });
    const outOfRange = await send(api.url, where, { foot_numb_on_bike: 'no', pain: 11 });
    expect([outOfRange.status, outOfRange.html.includes('from 0 to 10')]).toEqual([422, true]);
  });

  it('leave the power question out for whom a finding keeps from hard efforts', async () => {
    const { clientId, path } = await asked();
    await screen(studio.desk, clientId, { ...nothingWrong, calf_pain_on_walking: 'yes' });
    const { keys } = await through(await begin(path), answers);
    expect(keys).toContain('overall_change');
    expect(keys.filter((key) => key.includes('power') || key.includes('course'))).toEqual([]);
  });

  it('tell at once what to do, open a case and alert the studio, whether or not the rest is handed in', async () => {
    const { clientId, path } = await asked();
    const worrying = onlyNew({ chest_pain: 'yes', chest_pain_hours_ago: 2 });
    let page = await begin(path);
    for (let at = 0; at < 6 && page.path.includes('/pages/'); at += 1)
      page = await send(api.url, page, worrying);
    expect(page.path).toContain('/urgent/');
    expect(page.html).toContain('Call your local emergency number now');
    const of = { params: { path: { clientId } } };
    const cases = await dataOf(studio.owner.GET('/v1/clients/{clientId}/referrals', of));
    expect(cases).toMatchObject([{ route: 'emergency_now', state: 'opened' }]);
    expect((await detail(clientId)).state).toBe('sent');
  });

  it('judge where it hurts though nothing is said to be new, and say so at the end', async () => {
    const { clientId, path } = await asked();
    const hurting = {
      ...answers,
      complaint_sites: ['left_knee_front'],
      'complaint_quality@left_knee_front': ['pain'],
      'complaint_when@left_knee_front': ['riding'],
      'complaint_duration@left_knee_front': 'under_two_weeks',
      'complaint_worst@left_knee_front': 8,
      'complaint_rises@left_knee_front': 'no',
      unchanged_after_two_fits: 'no',
    };
    const { end } = await through(await begin(path), hurting);
    expect(end.path).toBe(`${path}/review`);
    const done = await visit(`${api.url}${path}/submit`, []);
    expect(done.html).toContain('Please see your doctor about the pain within days.');
    const of = { params: { path: { clientId } } };
    expect(await dataOf(studio.owner.GET('/v1/clients/{clientId}/referrals', of))).toHaveLength(1);
  });

  it('take what worries somebody to the fitters, and not to the front desk', async () => {
    const { clientId, path } = await asked();
    await through(await begin(path), { ...answers, worry: 'My left knee clicks <b>loudly</b>.' });
    await visit(`${api.url}${path}/submit`, []);
    const query = { params: { query: { clientId } } };
    const fitters = await dataOf(studio.owner.GET('/v1/tasks', query));
    expect(fitters.items.map(({ kind }) => kind)).toEqual(['follow_up_to_read']);
    expect((await dataOf(studio.desk.GET('/v1/tasks', query))).items).toEqual([]);
    expect((await detail(clientId)).answers).toContainEqual(
      expect.objectContaining({ question: 'worry', answer: 'My left knee clicks <b>loudly</b>.' }),
    );
  });

  it('close with the consent', async () => {
    const { clientId, path } = await asked();
    const page = await begin(path);
    const params = { path: { clientId, kind: 'health_data' as const } };
    await dataOf(studio.desk.POST('/v1/clients/{clientId}/consents/{kind}/withdrawal', { params }));
    const closed = await send(api.url, page, { anything_new: 'no' });
    expect([closed.status, closed.html.includes('does not ask this any more')]).toEqual([410, true]);
  });

  it('are answered once, though sent twice at a time, and by programs the same way', async () => {
    const { path } = await asked();
    await through(await begin(path), answers);
    const both = await Promise.all([
      visit(`${api.url}${path}/submit`, []),
      openClient(api.url).POST('/v1/follow-up-links/{link}/answers', {
        params: { path: { link: path.split('/').at(-1) ?? '' } },
        body: { answers: { ...nothingNew } },
      }),
    ]);
    const statuses = both.map((one) => ('status' in one ? one.status : one.response.status));
    expect(statuses.sort()).toEqual([expect.any(Number), 410]);
  });
});

describe('what a rider names', () => {
  it('is fixed with the signature', async () => {
    const client = await takeOnClient(studio.owner);
    await screen(studio.desk, client.clientId);
    const { fitSessionId } = await signedSession(studio.owner, client);
    const of = { params: { path: { fitSessionId } } };
    const put = await studio.owner.PUT('/v1/fit-sessions/{fitSessionId}/chosen-activities', {
      ...of,
      body: { activities },
    });
    expect(put.error).toMatchObject({ status: 409, code: 'follow-ups.activities-fixed' });
    expect(await dataOf(studio.owner.GET('/v1/fit-sessions/{fitSessionId}/chosen-activities', of))).toEqual({
      activities: [],
    });
  });
});

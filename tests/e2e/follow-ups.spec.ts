import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf, openClient, type components } from '@studio/api-client';
import type { ChildProcess } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import { Redis } from 'ioredis';
import { daysPassToMorning } from '../../seed/src/story/weeks-later.js';
import { service } from '../helpers/database.js';
import { eventually, mailsTo, type CaughtMail } from '../helpers/mail.js';
import { nothingNew, nothingWrong, onlyNew, screen, signedSession, takeOnClient } from '../helpers/rider.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';
import { startWorker, stop } from '../helpers/worker.js';

let api: TestApi;
let studio: TestStudio;
let worker: ChildProcess;
const queuePrefix = `t${randomUUID().slice(0, 8)}`;

beforeAll(async () => {
  api = await startTestApi();
  studio = await openTestStudio(api);
  worker = startWorker(api, queuePrefix);
});
afterAll(async () => {
  await stop(worker);
  await api.close();
});

const daysPass = (days: number) => daysPassToMorning(studio.owner, days);

async function rider(): Promise<{ email: string; clientId: string; fitSessionId: string }> {
  const email = `${randomUUID().slice(0, 8)}@riders.example`;
  const client = await takeOnClient(studio.owner, email);
  await screen(studio.desk, client.clientId);
  const { fitSessionId } = await signedSession(studio.owner, client);
  return { email, clientId: client.clientId, fitSessionId };
}

const mailTo = (email: string): Promise<CaughtMail> =>
  eventually(`mail to ${email}`, 20, async () => (await mailsTo(email)).at(0));
const linkIn = (mail: CaughtMail): string => /follow-up\/(\S+)/.exec(mail.text)?.[1] ?? '';

const reported: components['schemas']['FollowUpAnswersRequest'] = {
  pain: 2,
  comfort: 75,
  numbness: false,
  power20MinW: 244,
  answers: nothingNew,
};
const answer = (link: string, body = reported) =>
  openClient(api.url).POST('/v1/follow-up-links/{link}/answers', { params: { path: { link } }, body });

const statesOf = async (fitSessionId: string): Promise<string[]> => {
  const of = { params: { path: { fitSessionId } } };
  return (await dataOf(studio.owner.GET('/v1/fit-sessions/{fitSessionId}', of))).followUps.map(
    ({ state }) => state,
  );
};

describe('a follow-up', () => {
  it('goes out when due and not before, is answered once by its link, and is summed up', async () => {
    const { email, fitSessionId } = await rider();
    await new Promise((resolve) => setTimeout(resolve, 2_500));
    expect(await mailsTo(email)).toEqual([]);

    await daysPass(15);
    const mail = await mailTo(email);
    expect(mail.subject).toBe('How is your new position?');
    await eventually('the record says sent', 5, async () =>
      (await statesOf(fitSessionId))[0] === 'sent' ? true : undefined,
    );

    const link = linkIn(mail);
    const path = { link };
    const asked = await dataOf(openClient(api.url).GET('/v1/follow-up-links/{link}', { params: { path } }));
    expect(asked).toMatchObject({
      ...{ studio: studio.studio.name, week: 2, asksForPower: true },
      questions: { id: 'since-the-fit' },
    });

    const both = await Promise.all([answer(link), answer(link)]);
    expect(both.map(({ response }) => response.status).sort()).toEqual([201, 410]);
    expect(both.find(({ data }) => data)?.data).toMatchObject({ advice: [] });

    const of = { params: { path: { fitSessionId } } };
    const outcome = await eventually(
      'the outcome',
      20,
      async () => (await studio.owner.GET('/v1/fit-sessions/{fitSessionId}/outcome', of)).data,
    );
    expect(outcome).toMatchObject({
      painBefore: 6,
      painAfter: 2,
      comfortBefore: 40,
      comfortAfter: 75,
      numbnessBefore: true,
      numbnessAfter: false,
      power20MinBeforeW: 240,
      power20MinAfterW: 244,
      saddleChangeLeftMm: -15,
    });
    // Leg chain at 20° foot pitch, 27 mm back.
    expect(outcome.saddleChangePredictedMm).toBeCloseTo(-15.3, 0);
  });

  it('is screened again: what is raised is told at once and keeps the next session shut', async () => {
    const { email, clientId } = await rider();
    await daysPass(15);
    const link = linkIn(await mailTo(email));
    const worrying = { ...reported, answers: onlyNew({ chest_pain: 'yes' }) };
    const { advice } = await dataOf(answer(link, worrying));
    expect(advice[0]).toMatch(/emergency number/);
    const of = { params: { path: { clientId } } };
    expect(await dataOf(studio.desk.GET('/v1/clients/{clientId}/desk-notice', of))).toEqual({
      notice: 'not_before_clearance',
    });
  });

  it('does not tell again what was cleared and has not changed', async () => {
    const email = `${randomUUID().slice(0, 8)}@riders.example`;
    const client = await takeOnClient(studio.owner, email);
    const { id: screeningId = '' } = await screen(studio.desk, client.clientId, {
      ...nothingWrong,
      bone_pain_on_loading: 'yes',
    });
    await dataOf(
      studio.owner.POST('/v1/screenings/{screeningId}/clearance', {
        params: { path: { screeningId } },
        body: { reason: 'Examined; may ride.', clearedByClinician: 'Dr A. Holm' },
      }),
    );
    await signedSession(studio.owner, client);
    await daysPass(15);
    const { advice } = await dataOf(answer(linkIn(await mailTo(email))));
    expect(advice).toEqual([]);
  });

  it('keeps its link when the answers cannot be read', async () => {
    const { email } = await rider();
    await daysPass(15);
    const link = linkIn(await mailTo(email));
    const unreadable = await answer(link, { ...reported, answers: { chest_pain: 'perhaps' } });
    expect(unreadable.error).toMatchObject({ status: 422, errors: [{ field: 'answers.chest_pain' }] });
    expect((await answer(link)).response.status).toBe(201);
  });

  it('is not sent once the consent is taken back, and counts as missing', async () => {
    const { email, clientId, fitSessionId } = await rider();
    const path = { clientId, kind: 'contact' as const };
    await dataOf(studio.desk.POST('/v1/clients/{clientId}/consents/{kind}/withdrawal', { params: { path } }));
    await daysPass(15);
    expect(await statesOf(fitSessionId)).toEqual(['cancelled', 'cancelled']);
    const review = await eventually('the review', 20, async () => {
      const now = await dataOf(studio.owner.GET('/v1/outcomes/review'));
      return now.missing > 0 ? now : undefined;
    });
    expect(review.sessions).toBe(review.answered + review.missing);
    expect(await mailsTo(email)).toEqual([]);
  });

  it.each([
    ['never was', () => `${'0'.repeat(32)}.${'0'.repeat(32)}.${'A'.repeat(43)}`],
    ['is no link', () => 'anything'],
  ])('has no page under a link that %s', async (_, link) => {
    expect((await answer(link())).response.status).toBe(404);
  });

  it('does not ask for power of somebody whom a finding keeps from hard efforts', async () => {
    const { email, clientId } = await rider();
    await screen(studio.desk, clientId, { ...nothingWrong, calf_pain_on_walking: 'yes' });
    await daysPass(15);
    const path = { link: linkIn(await mailTo(email)) };
    const asked = await dataOf(openClient(api.url).GET('/v1/follow-up-links/{link}', { params: { path } }));
    expect(asked).toMatchObject({ week: 2, asksForPower: false });
  });
});

describe('without an answer', () => {
  const linesOf = async (clientId: string) =>
    (await dataOf(studio.owner.GET('/v1/clients/{clientId}/follow-ups', { params: { path: { clientId } } })))
      .items;
  const reaches = (clientId: string, state: string) =>
    eventually(state, 20, async () => {
      const [first] = await linesOf(clientId);
      return first?.state === state ? first : undefined;
    });
  const taskOf = async (clientId: string) =>
    (await dataOf(studio.owner.GET('/v1/tasks', { params: { query: { clientId } } }))).items.find(
      ({ kind }) => kind === 'follow_up_unanswered',
    );

  it('the client is reminded once, then phoned, then it is given up and counts as missing; a late answer counts', async () => {
    const { email, clientId, fitSessionId } = await rider();
    await daysPass(15);
    const link = linkIn(await mailTo(email));
    await reaches(clientId, 'sent');
    await daysPass(4);
    const reminder = await eventually('the reminder', 20, async () => (await mailsTo(email)).at(1));
    expect([reminder.subject, linkIn(reminder)]).toEqual(['Once more: how is your new position?', link]);
    await reaches(clientId, 'reminded');
    await daysPass(5);
    const { id } = await reaches(clientId, 'phoned');
    expect(await taskOf(clientId)).toMatchObject({ role: 'fitter', subjectId: id });
    await daysPass(12);
    await reaches(clientId, 'unanswered');
    expect(await taskOf(clientId)).toBeUndefined();
    expect(await mailsTo(email)).toHaveLength(2);
    const review = await dataOf(studio.owner.GET('/v1/outcomes/review'));
    expect(review.missing).toBeGreaterThanOrEqual(1);

    expect((await answer(link)).response.status).toBe(201);
    expect((await statesOf(fitSessionId))[0]).toBe('answered');
  });

  it('who has no mail address is phoned at once, and what is said is judged and kept', async () => {
    const { clientId } = await rider();
    const of = { params: { path: { clientId }, header: { 'If-Match': '"1"' } } };
    await dataOf(studio.desk.PATCH('/v1/clients/{clientId}', { ...of, body: { email: null } }));
    await daysPass(15);
    const { id, stateReason } = await reaches(clientId, 'phoned');
    expect(stateReason).toBe('no_mail_address');
    const path = { followUpId: id };
    const said = {
      ...nothingNew,
      pain: 1,
      comfort: 80,
      foot_numb_on_bike: 'no',
      worry: 'The left bolt looks odd.',
    };
    const call = (client: typeof studio.owner | typeof studio.desk) =>
      client.POST('/v1/follow-ups/{followUpId}/phone-answers', { params: { path }, body: { answers: said } });
    expect((await call(studio.desk)).response.status).toBe(403);
    expect((await call(studio.owner)).data).toMatchObject({ advice: [] });
    expect((await call(studio.owner)).error).toMatchObject({ status: 409, code: 'follow-ups.state' });
    expect(await taskOf(clientId)).toBeUndefined();

    expect((await studio.desk.GET('/v1/follow-ups/{followUpId}', { params: { path } })).response.status).toBe(
      403,
    );
    const read = await dataOf(studio.owner.GET('/v1/follow-ups/{followUpId}', { params: { path } }));
    expect(read.answers).toContainEqual({
      question: 'worry',
      text: 'Is there anything that worries you?',
      answer: 'The left bolt looks odd.',
    });
    const tasks = await dataOf(studio.owner.GET('/v1/tasks', { params: { query: { clientId } } }));
    expect(tasks.items.map(({ kind, role }) => [kind, role])).toEqual([['follow_up_to_read', 'fitter']]);
    // What the desk is shown says nothing of it.
    expect(JSON.stringify(await linesOf(clientId))).not.toContain('bolt looks');
  });
});

describe('whatever dies', () => {
  it('an emptied Redis loses nothing that is due', async () => {
    const { email } = await rider();
    await stop(worker);
    await daysPass(15);
    const redis = new Redis(service('TEST_REDIS_URL'));
    await redis.flushall();
    await redis.quit();
    worker = startWorker(api, queuePrefix);
    await mailTo(email);
    expect(await mailsTo(email)).toHaveLength(1);
  });

  it('a worker that is killed is taken over by the next', async () => {
    const riders = await Promise.all([rider(), rider(), rider()]);
    await daysPass(15);
    await stop(worker, 'SIGKILL');
    worker = startWorker(api, queuePrefix);
    for (const { email, fitSessionId } of riders) {
      await eventually(`sent to ${email}`, 45, async () =>
        (await statesOf(fitSessionId))[0] === 'sent' ? true : undefined,
      );
      await mailTo(email);
      // A kill between the server's answer and our commit sends it again, recognisably.
      const ids = new Set((await mailsTo(email)).map(({ headers }) => JSON.stringify(headers['message-id'])));
      expect(ids.size).toBe(1);
    }
  });

  it('a worker that is asked to stop ends by itself, its work done', async () => {
    const { email } = await rider();
    await daysPass(15);
    await mailTo(email);
    expect(await stop(worker)).toBe(0);
  });
});

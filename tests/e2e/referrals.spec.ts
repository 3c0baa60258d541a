import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf, type components } from '@studio/api-client';
import pg from 'pg';
import { eventually } from '../helpers/mail.js';
import { nothingWrong, screen, takeOnClient, type TestClient } from '../helpers/rider.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';

type Schemas = components['schemas'];

let api: TestApi;
let studio: TestStudio;
let database: pg.Client;

beforeAll(async () => {
  api = await startTestApi();
  studio = await openTestStudio(api);
  database = new pg.Client({ connectionString: api.database.adminUrl });
  await database.connect();
});
afterAll(async () => {
  await database.end();
  await api.close();
});

const ofClient = (clientId: string) => ({ params: { path: { clientId } } });
const ofCase = (referralId: string) => ({ params: { path: { referralId } } });
const casesOf = (clientId: string) =>
  dataOf(studio.owner.GET('/v1/clients/{clientId}/referrals', ofClient(clientId)));
const caseOf = (id: string) => dataOf(studio.owner.GET('/v1/referrals/{referralId}', ofCase(id)));
const open = (client: TestClient) => studio.owner.POST('/v1/fit-sessions', { body: client });
const daysPass = (days: number) =>
  dataOf(studio.owner.POST('/v1/test-clock/advance', { body: { seconds: days * 86_400 } }));
const clockNow = async (): Promise<Date> =>
  (await database.query<{ now: Date }>('SELECT app_now() AS now')).rows[0]?.now ?? new Date(NaN);

/** A client with bone pain on loading: no riding until a doctor has looked, within days. */
async function referred(
  answers: Record<string, string> = { bone_pain_on_loading: 'yes' },
): Promise<{ client: TestClient; referralId: string }> {
  const client = await takeOnClient(studio.owner);
  await screen(studio.desk, client.clientId, { ...nothingWrong, ...answers });
  const [referral] = await casesOf(client.clientId);
  if (!referral) throw new Error('no case was opened');
  return { client, referralId: referral.id };
}

const clearance: Schemas['ClearRequest'] = {
  reason: 'Examined; may ride.',
  clearedByClinician: 'Dr A. Holm',
  registration: 'reg. 00000',
};
const handOver = (id: string, body: Schemas['HandOverRequest'] = { how: 'in_person' }) =>
  studio.owner.POST('/v1/referrals/{referralId}/hand-over', { ...ofCase(id), body });
const remindersOf = async (clientId: string) =>
  (await dataOf(studio.desk.GET('/v1/messages', { params: { query: { clientId } } }))).items
    .filter(({ template }) => template === 'referral_deadline')
    .map(({ state, notBefore }) => ({ state, notBefore }));
const acknowledge = (id: string) =>
  studio.owner.POST('/v1/referrals/{referralId}/acknowledgement', {
    ...ofCase(id),
    body: { how: 'by_phone' },
  });
const answer = (id: string) =>
  studio.owner.POST('/v1/referrals/{referralId}/answer', {
    ...ofCase(id),
    body: {
      clinician: 'Dr A. Holm',
      registration: 'reg. 00000',
      answeredOn: '2026-03-05',
      answer: 'Seen, letter follows.',
    },
  });
const clear = (id: string, body: Schemas['ClearRequest'] = clearance) =>
  studio.owner.POST('/v1/referrals/{referralId}/clearance', { ...ofCase(id), body });
const end = (id: string) =>
  studio.owner.POST('/v1/referrals/{referralId}/end', { ...ofCase(id), body: { reason: 'Moved away.' } });

describe('a referral case', () => {
  it('opens for what a clinician should see, and not for what only asks for caution', async () => {
    const { client, referralId } = await referred();
    const referral = await caseOf(referralId);
    expect(referral).toMatchObject({
      state: 'opened',
      route: referral.findings[0]?.route,
      overdue: false,
      facts: [
        {
          question:
            'Does a hip, groin or one spot of a bone hurt when you put weight on it, or wake you at night?',
          answer: 'Yes',
        },
      ],
    });
    const { error } = await open(client);
    expect(error).toMatchObject({ status: 409, findingIds: [referral.findings[0]?.id] });

    const careful = await takeOnClient(studio.owner);
    await screen(studio.desk, careful.clientId, { ...nothingWrong, foot_numb_on_bike: 'yes' });
    expect(await casesOf(careful.clientId)).toEqual([]);
  });

  it('goes its way: handed over, acknowledged, answered, cleared; what cannot follow is refused with what can', async () => {
    const { client, referralId } = await referred();
    expect((await acknowledge(referralId)).error).toMatchObject({
      status: 409,
      code: 'referrals.step-impossible',
      state: 'opened',
      allowed: ['handed_over', 'answered', 'cleared', 'ended'],
    });
    const future = await handOver(referralId, { how: 'in_person', at: '2199-01-01T00:00:00Z' });
    expect(future.error).toMatchObject({ status: 400, errors: [{ field: 'at' }] });
    expect((await dataOf(handOver(referralId))).handedOver).toMatchObject({ how: 'in_person' });
    expect((await handOver(referralId)).response.status).toBe(409);
    expect((await dataOf(acknowledge(referralId))).state).toBe('acknowledged');
    expect((await dataOf(answer(referralId))).answer).toMatchObject({ registration: 'reg. 00000' });
    // An answer lifts nothing; a clearance does.
    expect((await open(client)).response.status).toBe(409);
    expect(await dataOf(clear(referralId))).toMatchObject({
      state: 'cleared',
      allowed: ['cleared'],
      clearances: [{ clearedByClinician: 'Dr A. Holm', registration: 'reg. 00000', validUntil: null }],
    });
    expect((await open(client)).response.status).toBe(201);
    expect((await end(referralId)).response.status).toBe(409);
  });

  it('takes one of two steps made at once', async () => {
    const { referralId } = await referred();
    const both = await Promise.all([handOver(referralId), handOver(referralId)]);
    expect(both.map(({ response }) => response.status).sort()).toEqual([200, 409]);
  });

  it('that ends lifts nothing, and the same complaint later opens another', async () => {
    const { client, referralId } = await referred();
    expect((await dataOf(end(referralId))).end).toMatchObject({ reason: 'Moved away.' });
    expect((await open(client)).response.status).toBe(409);
    await screen(studio.desk, client.clientId);
    await screen(studio.desk, client.clientId, { ...nothingWrong, bone_pain_on_loading: 'yes' });
    expect(await casesOf(client.clientId)).toMatchObject([{ state: 'opened' }, { state: 'ended' }]);
  });

  it('is joined by the same complaint while nobody has answered, and by no other', async () => {
    const { client, referralId } = await referred();
    await screen(studio.desk, client.clientId);
    await screen(studio.desk, client.clientId, {
      ...nothingWrong,
      bone_pain_on_loading: 'yes',
      leg_swelling_one_sided_new: 'yes',
    });
    const cases = await casesOf(client.clientId);
    expect(cases).toHaveLength(2);
    expect((await caseOf(referralId)).findings.map(({ ruleId }) => ruleId)).toEqual([
      'bone-pain-on-loading',
      'bone-pain-on-loading',
    ]);
    await dataOf(clear(referralId));
    expect((await open(client)).error).toMatchObject({ rules: ['new-one-sided-leg-swelling'] });
  });

  it('is closed by the clearance of its screening too', async () => {
    const { client, referralId } = await referred();
    const [screening] = await dataOf(
      studio.owner.GET('/v1/clients/{clientId}/screenings', ofClient(client.clientId)),
    );
    const of = { params: { path: { screeningId: screening?.id ?? '' } } };
    await dataOf(studio.owner.POST('/v1/screenings/{screeningId}/clearance', { ...of, body: clearance }));
    expect((await caseOf(referralId)).state).toBe('cleared');
  });
});

describe('a clearance', () => {
  it('allows again exactly what it names', async () => {
    const { client, referralId } = await referred();
    const first = await dataOf(clear(referralId, { ...clearance, scope: ['cleat_change'] }));
    expect(first.clearances).toMatchObject([{ scope: ['cleat_change'] }]);
    expect((await open(client)).response.status).toBe(409);
    await dataOf(clear(referralId, { ...clearance, scope: ['riding'] }));
    expect((await open(client)).response.status).toBe(201);
    const [screening] = await dataOf(
      studio.owner.GET('/v1/clients/{clientId}/screenings', ofClient(client.clientId)),
    );
    const raised = screening?.findings.find(({ result }) => result === 'raised');
    expect(raised?.stillBars).not.toContain('riding');
    expect(raised?.stillBars).not.toContain('cleat_change');
  });

  it('holds to the end of its last day at the studio, and what it covered stands again after', async () => {
    const { client, referralId } = await referred();
    const now = await clockNow();
    const tomorrow = new Date(now.getTime() + 86_400_000).toISOString().slice(0, 10);
    const past = await clear(referralId, { ...clearance, validUntil: '2020-01-01' });
    expect(past.error).toMatchObject({ status: 422, errors: [{ field: 'validUntil' }] });
    await dataOf(clear(referralId, { ...clearance, validUntil: tomorrow }));
    expect((await open(client)).response.status).toBe(201);
    await daysPass(3);
    expect((await open(client)).response.status).toBe(409);
    await dataOf(clear(referralId));
    expect((await open(client)).response.status).toBe(201);
  });
});

describe('deadlines and tasks', () => {
  const tasksOf = async (clientId: string) =>
    (await dataOf(studio.owner.GET('/v1/tasks', { params: { query: { clientId } } }))).items;

  it('a case is overdue once its deadline has passed', async () => {
    const { client, referralId } = await referred();
    expect(await tasksOf(client.clientId)).toEqual([]);
    await daysPass(40);
    expect((await caseOf(referralId)).overdue).toBe(true);
  });

  it('one for the same day shows at once, is due at the end of that day, and orders one alert', async () => {
    const { client, referralId } = await referred({ leg_swelling_one_sided_new: 'yes' });
    const [task] = await tasksOf(client.clientId);
    expect(task).toMatchObject({ subjectId: referralId, overdue: false });
    const untilDue = new Date(task?.dueAt ?? '').getTime() - (await clockNow()).getTime();
    expect(untilDue).toBeGreaterThan(0);
    expect(untilDue).toBeLessThanOrEqual(86_400_000);
    await screen(studio.desk, client.clientId, { ...nothingWrong, leg_swelling_one_sided_new: 'yes' });
    const { rows } = await database.query('SELECT 1 FROM outbox WHERE payload = $1', [
      JSON.stringify({ referralId }),
    ]);
    expect(rows).toHaveLength(1);
    await dataOf(answer(referralId));
    expect(await tasksOf(client.clientId)).toEqual([]);
  });
});

describe('the letter', () => {
  it('says what the client answered and what we ask, and names no finding and no diagnosis', async () => {
    const { client, referralId } = await referred({
      saddle_numb: 'yes',
      saddle_numb_new_or_worse: 'no',
      saddle_numb_day_after: 'yes',
    });
    const letter = await dataOf(studio.owner.GET('/v1/referrals/{referralId}/letter', ofCase(referralId)));
    expect(letter.title).toBe('Request for an assessment: Robin Rider');
    expect(letter.text).toContain(
      'Is that area still numb a day after riding, or numb without having ridden?\n  Yes',
    );
    // Answers the case does not rest on are nobody's business.
    expect(letter.text).not.toContain('chest');
    expect(letter.text).not.toMatch(/saddle-numbness|nerve|syndrome|diagnosis of/i);

    await dataOf(handOver(referralId));
    await dataOf(
      studio.owner.PATCH('/v1/clients/{clientId}', {
        params: { path: { clientId: client.clientId }, header: { 'If-Match': '"1"' } },
        body: { familyName: 'Renamed' },
      }),
    );
    const kept = await dataOf(studio.owner.GET('/v1/referrals/{referralId}/letter', ofCase(referralId)));
    expect(kept).toEqual(letter);
  });

  it('comes as PDF too', async () => {
    const { referralId } = await referred();
    const { data, response } = await studio.owner.GET('/v1/referrals/{referralId}/letter.pdf', {
      ...ofCase(referralId),
      parseAs: 'arrayBuffer',
    });
    expect(response.headers.get('content-type')).toBe('application/pdf');
    expect(
      Buffer.from(data as unknown as ArrayBuffer)
        .subarray(0, 5)
        .toString(),
    ).toBe('%PDF-');
  });
});

describe('occasions', () => {
  const occasions = ['intake', 'session_start', 'during_session', 'follow_up'] as const;

  it.each(occasions)('a finding raised on the occasion %s governs whatever comes after', async (occasion) => {
    const client = await takeOnClient(studio.owner);
    await screen(studio.desk, client.clientId);
    expect((await open(client)).response.status).toBe(201);
    const body = {
      questionSetId: 'rider-intake',
      questionSetVersion: '2',
      occasion,
      answers: { ...nothingWrong, bone_pain_on_loading: 'yes' },
    };
    await dataOf(
      studio.owner.POST('/v1/clients/{clientId}/screenings', { ...ofClient(client.clientId), body }),
    );
    await screen(studio.desk, client.clientId);
    const { error } = await open(client);
    expect(error).toMatchObject({ code: 'screenings.not-permitted', rules: ['bone-pain-on-loading'] });
    const [, raised] = await dataOf(
      studio.owner.GET('/v1/clients/{clientId}/screenings', ofClient(client.clientId)),
    );
    expect(raised?.occasion).toBe(occasion);
    expect((error as unknown as { findingIds: string[] }).findingIds).toEqual(
      raised?.findings.filter(({ result }) => result === 'raised').map(({ id }) => id),
    );
  });

  it('the front desk cannot book who may not ride, and is told no more than that', async () => {
    const { client, referralId } = await referred();
    const body = {
      clientId: client.clientId,
      serviceId: studio.serviceId,
      roomId: studio.roomId,
      fitterId: studio.owner.signedIn.id,
      startsAt: '2095-03-02T09:00:00Z',
    };
    const { error } = await studio.desk.POST('/v1/appointments', { body });
    expect(error).toMatchObject({ status: 409, detail: 'Not before clearance.' });
    expect(JSON.stringify(error)).not.toMatch(/bone|pain|loading/);
    await dataOf(clear(referralId));
    expect((await studio.desk.POST('/v1/appointments', { body })).response.status).toBe(201);
  });
});

describe('who sees it', () => {
  it('not the front desk', async () => {
    const { client, referralId } = await referred();
    const [screening] = await dataOf(
      studio.owner.GET('/v1/clients/{clientId}/screenings', ofClient(client.clientId)),
    );
    const { desk } = studio;
    const refused = [
      desk.GET('/v1/clients/{clientId}/referrals', ofClient(client.clientId)),
      desk.GET('/v1/referrals/{referralId}', ofCase(referralId)),
      desk.GET('/v1/referrals/{referralId}/letter', ofCase(referralId)),
      desk.GET('/v1/referrals/{referralId}/letter.pdf', ofCase(referralId)),
      desk.GET('/v1/screenings/{screeningId}', { params: { path: { screeningId: screening?.id ?? '' } } }),
      desk.POST('/v1/referrals/{referralId}/end', { ...ofCase(referralId), body: { reason: 'No.' } }),
    ];
    for (const { response } of await Promise.all(refused)) expect(response.status).toBe(403);
  });

  it('and each reading is in the audit log, with who read', async () => {
    const { client, referralId } = await referred();
    const [screening] = await dataOf(
      studio.owner.GET('/v1/clients/{clientId}/screenings', ofClient(client.clientId)),
    );
    const screeningId = screening?.id ?? '';
    await studio.owner.GET('/v1/screenings/{screeningId}', { params: { path: { screeningId } } });
    await studio.owner.GET('/v1/referrals/{referralId}', ofCase(referralId));
    await studio.owner.GET('/v1/referrals/{referralId}/letter', ofCase(referralId));
    await studio.owner.GET('/v1/referrals/{referralId}/letter.pdf', {
      ...ofCase(referralId),
      parseAs: 'arrayBuffer',
    });
    // Written down within a second of the reading.
    const actions = await eventually('all readings in the log', 10, async () => {
      const { rows } = await database.query<{ action: string }>(
        `SELECT action FROM audit_entries WHERE record_id = ANY ($1) AND action LIKE 'read.%' AND user_id = $2 ORDER BY id`,
        [[client.clientId, screeningId, referralId], studio.owner.signedIn.id],
      );
      return rows.length < 6 ? undefined : rows.map(({ action }) => action);
    });
    // Two APIs write their readings down each at its time.
    expect(actions.sort()).toEqual([
      'read.getReferral',
      'read.getReferralLetter',
      'read.getReferralLetterPdf',
      'read.getScreening',
      'read.listReferrals',
      'read.listScreenings',
    ]);
  });
});

describe('the day that was agreed on', () => {
  it('is recalled to the client the day before, unless the case is answered by then', async () => {
    const { client, referralId } = await referred();
    expect(await remindersOf(client.clientId)).toEqual([]);
    await dataOf(handOver(referralId));
    const { dueAt } = await caseOf(referralId);
    const [reminder] = await remindersOf(client.clientId);
    expect(reminder?.state).toBe('queued');
    // The deadline is the end of its day: 14 hours after ten o’clock of that day.
    expect(Date.parse(dueAt) - Date.parse(reminder?.notBefore ?? '')).toBe((14 + 24) * 3_600_000);
    await dataOf(answer(referralId));
    expect((await remindersOf(client.clientId)).map(({ state }) => state)).toEqual(['cancelled']);
  });

  it('is not recalled when no day is left before it', async () => {
    const { client, referralId } = await referred({ coughed_blood: 'yes' });
    await dataOf(handOver(referralId));
    expect(await remindersOf(client.clientId)).toEqual([]);
  });
});

describe('the rules', () => {
  it('are listed with their sources, and signed by a clinician for the version in use', async () => {
    const rules = await dataOf(studio.owner.GET('/v1/rules'));
    expect(rules.isSigned).toBe(false);
    expect(rules.rules.length).toBeGreaterThan(60);
    for (const rule of rules.rules)
      expect([rule.id, rule.source]).toEqual([rule.id, expect.stringMatching(/\w/)]);

    const body = {
      ruleSetVersion: rules.version,
      clinicianName: 'Dr A. Holm',
      registration: 'reg. 00000',
      signedOn: '2026-03-02',
    };
    const sign = (change: Partial<typeof body> = {}) =>
      studio.owner.POST('/v1/rules/sign-offs', { body: { ...body, ...change } });
    expect((await sign({ ruleSetVersion: '1999.1' })).error).toMatchObject({
      status: 422,
      errors: [{ field: 'ruleSetVersion' }],
    });
    expect((await sign({ signedOn: '2099-01-01' })).error).toMatchObject({ errors: [{ field: 'signedOn' }] });
    expect((await studio.desk.POST('/v1/rules/sign-offs', { body })).response.status).toBe(403);
    expect(await dataOf(sign())).toMatchObject({
      isSigned: true,
      signOffs: [{ clinicianName: 'Dr A. Holm', registration: 'reg. 00000', signedOn: '2026-03-02' }],
    });
    expect((await sign()).error).toMatchObject({ status: 409, code: 'screenings.already-signed' });
  });
});

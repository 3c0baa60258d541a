import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf, openClient, ProblemError } from '@studio/api-client';
import { freeLine, issuedReceipt, setUpAccounts } from '../helpers/accounts.js';
import { call, operations } from '../helpers/openapi.js';
import { uploadPhoto } from '../helpers/files.js';
import { film, motionCsv } from '../helpers/motion.js';
import { nothingWrong, openMeasuredSession, screen, signedSession, takeOnClient } from '../helpers/rider.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';

let api: TestApi;
let here: TestStudio;
let elsewhere: TestStudio;

beforeAll(async () => {
  api = await startTestApi();
  [here, elsewhere] = await Promise.all([openTestStudio(api), openTestStudio(api)]);
});
afterAll(() => api.close());

const tokenOf = async ({ studio }: TestStudio): Promise<string> => {
  const { email, password } = studio.owner;
  const body = { studio: studio.handle, email, password };
  return (await dataOf(openClient(api.url).POST('/v1/sign-ins', { body }))).accessToken;
};

describe('another studio’s record is not there', () => {
  let ids: Record<string, string>;
  let own: string;
  let other: string;

  beforeAll(async () => {
    const client = await takeOnClient(here.owner);
    const { id: screeningId = '' } = await screen(here.owner, client.clientId);
    const { fitSessionId, cleatPlanId } = await signedSession(here.owner, client);
    const { positions, measurements } = await dataOf(
      here.owner.GET('/v1/fit-sessions/{fitSessionId}', { params: { path: { fitSessionId } } }),
    );
    const recording = await dataOf(
      here.owner.POST('/v1/fit-sessions/{fitSessionId}/motion-recordings', {
        params: { path: { fitSessionId: await openMeasuredSession(here.owner, client) } },
        body: { side: 'left', csv: motionCsv(), film },
      }),
    );
    const startsAt = '2090-03-02T09:00:00Z';
    const { serviceId, roomId } = here;
    const fitterId = here.owner.signedIn.id;
    const site = await dataOf(here.owner.POST('/v1/sites', { body: { name: 'Quay' } }));
    const bench = await dataOf(here.owner.POST('/v1/benches', { body: { name: 'Bench' } }));
    const body = { clientId: client.clientId, serviceId, roomId, fitterId, startsAt };
    const { id: appointmentId } = await dataOf(here.desk.POST('/v1/appointments', { body }));
    const visits = ['2090-03-03T09:00:00Z', '2090-03-04T09:00:00Z'].map((at) => ({
      ...{ serviceId, roomId, fitterId, startsAt: at },
    }));
    const series = await dataOf(
      here.desk.POST('/v1/appointment-series', { body: { clientId: client.clientId, visits } }),
    );
    const usual = { weekdays: [1], from: '09:00', until: '17:00', validFrom: '2026-01-01', siteId: site.id };
    const weeklyHours = await dataOf(here.owner.POST('/v1/weekly-hours', { body: usual }));
    const closed = { kind: 'closed' as const, reason: 'closure' as const, siteId: site.id };
    const exception = await dataOf(
      here.owner.POST('/v1/hours-exceptions', {
        body: { ...closed, firstDay: '2026-06-24', lastDay: '2026-06-24' },
      }),
    );
    const of = { params: { path: { clientId: client.clientId } } };
    await screen(here.owner, client.clientId, { ...nothingWrong, leg_swelling_one_sided_new: 'yes' });
    const { id: apiKeyId } = await dataOf(
      here.owner.POST('/v1/api-keys', {
        body: { name: 'table', roles: ['fitter'], expiresAt: '2027-03-02T09:00:00Z' },
      }),
    );
    const [signIn] = await dataOf(here.owner.GET('/v1/my-account/sign-ins'));
    const [referral] = await dataOf(here.owner.GET('/v1/clients/{clientId}/referrals', of));
    const referralId = referral?.id ?? '';
    const created = { body: { givenName: 'Robin', familyName: 'Rider' } };
    const again = await dataOf(here.desk.POST('/v1/clients', created));
    const friend = await dataOf(here.desk.POST('/v1/clients', created));
    const clientMerge = await dataOf(
      here.desk.POST('/v1/clients/{clientId}/merges', { ...of, body: { mergedClientId: again.id } }),
    );
    const note = await dataOf(
      here.desk.POST('/v1/clients/{clientId}/notes', { ...of, body: { text: 'Prefers mornings.' } }),
    );
    const [link] = await dataOf(
      here.desk.POST('/v1/clients/{clientId}/links', {
        ...of,
        body: { otherClientId: friend.id, kind: 'team_mate' },
      }),
    );
    const list = await dataOf(
      here.desk.POST('/v1/client-imports', {
        body: 'First name,Last name\nAna,Olsen\n',
        bodySerializer: (body: string) => body,
        headers: { 'content-type': 'text/csv' },
      }),
    );
    const imported = await dataOf(
      here.desk.GET('/v1/client-imports/{clientImportId}/rows', {
        params: { path: { clientImportId: list.id } },
      }),
    );
    const wish = await dataOf(
      here.desk.POST('/v1/waiting-list', {
        body: { clientId: friend.id, serviceId, firstDay: '2090-03-02', lastDay: '2090-03-03' },
      }),
    );
    const [task] = (await dataOf(here.owner.GET('/v1/tasks'))).items;
    const { id: intakeLinkId } = await dataOf(
      here.desk.POST('/v1/clients/{clientId}/intake-links', { ...of, body: { delivery: 'hand_over' } }),
    );
    const file = await uploadPhoto(here.owner, client.clientId);
    await setUpAccounts(here.owner);
    const [taxRate] = (await dataOf(here.owner.GET('/v1/tax-rates'))).items;
    const part = await dataOf(
      here.owner.POST('/v1/parts', {
        body: { name: 'Cleat', kind: 'cleat', priceMinor: 1999, taxClass: 'standard' },
      }),
    );
    const receipt = await issuedReceipt(here.desk, { lines: [freeLine(100)] });
    const payment = await dataOf(
      here.desk.POST('/v1/payments', {
        body: { kind: 'payment', method: 'cash', amountMinor: 100, documentId: receipt.id },
      }),
    );
    const {
      items: [message],
    } = await dataOf(here.desk.GET('/v1/messages'));
    const feed = await dataOf(here.owner.POST('/v1/calendar-feeds', { body: { roomId } }));
    const { items: followUps } = await dataOf(here.owner.GET('/v1/clients/{clientId}/follow-ups', of));
    await dataOf(
      here.owner.POST('/v1/follow-up-plans', {
        body: {
          ...{ id: 'crank-change', name: 'Crank change' },
          steps: [
            {
              ...{
                id: 'month-1',
                after: { count: 1, unit: 'months' },
                window: { from: '10:00', until: '12:00' },
              },
              ...{ channel: 'mail', questionSet: { id: 'since-the-fit', version: '2' }, tell: 'owner' },
              ...{ unanswered: [{ afterDays: 10, action: 'close' }], countsAsOutcome: true },
            },
          ],
        },
      }),
    );
    const endpoint = await dataOf(
      here.owner.POST('/v1/webhook-endpoints', {
        body: { url: 'http://127.0.0.1:9/', events: ['appointment.booked'] },
      }),
    );
    const sheet = await dataOf(
      here.owner.POST('/v1/fit-sessions/{fitSessionId}/fit-sheets', {
        params: { path: { fitSessionId } },
        body: { audience: 'rider' },
      }),
    );
    const pair = await dataOf(
      here.owner.POST('/v1/clients/{clientId}/paired-positions', {
        params: { path: { clientId: client.clientId } },
        body: {
          first: { fitSessionId, use: 'racing' },
          second: { bikeId: client.bikeId, shoeId: client.shoeId, use: 'training' },
          because: 'Two uses of one bike.',
        },
      }),
    );
    ids = {
      motionRecordingId: recording.id,
      pairedPositionId: pair.id,
      fitSheetId: sheet.id,
      fileId: file.id,
      ...{ planId: cleatPlanId, followUpPlanId: 'crank-change', followUpId: followUps[0]?.id ?? '' },
      ...{ documentId: receipt.id, paymentId: payment.id, partId: part.id, taxRateId: taxRate?.id ?? '' },
      ...{ ...client, screeningId, fitSessionId, cleatPlanId, appointmentId, serviceId, roomId, fitterId },
      ...{ clientImportId: list.id, clientImportRowId: imported.items[0]?.id ?? '', wishId: wish.id },
      ...{ clientMergeId: clientMerge.id, clientNoteId: note.id, clientLinkId: link?.id ?? '' },
      ...{ referralId, intakeLinkId, taskId: task?.id ?? '', apiKeyId, signInId: signIn?.id ?? '' },
      ...{ seriesId: series.id, weeklyHoursId: weeklyHours.id, hoursExceptionId: exception.id },
      ...{ siteId: site.id, benchId: bench.id, staffId: fitterId },
      ...{ from: positions[0]?.id ?? '', to: positions[1]?.id ?? '' },
      ...{ measurementId: measurements[0]?.id ?? '', changeId: fitSessionId, visitStage: 'bench' },
      ...{ partKind: 'stem', hardwareId: fitSessionId },
      ...{ messageId: message?.id ?? '', calendarFeedId: feed.id },
      // Made by the worker: other tests read them.
      ...{ slotOfferId: sheet.id, deliveryId: sheet.id, orderId: sheet.id },
      ...{ endpointId: endpoint.id, kind: 'contact', stage: 'found', link: 'no-link' },
    };
    own = await tokenOf(here);
    other = await tokenOf(elsewhere);
  });

  const withRecord = operations.filter(({ pathParameters }) =>
    pathParameters.some((name) => name.endsWith('Id')),
  );

  it('is checked on every route that names a record', () => {
    expect(withRecord.length).toBeGreaterThanOrEqual(20);
    const known = Object.keys(ids);
    // A new kind of id must be added above, or its routes would pass unchecked.
    for (const { pathParameters } of withRecord)
      for (const name of pathParameters) expect(known).toContain(name);
  });

  it.each(withRecord.map((operation) => [operation.id, operation] as const))('%s', async (_, operation) => {
    const answer = await call(api.url, operation, { ids, token: other });
    expect(answer).toMatchObject({ status: 404, problem: { code: 'not-found' } });
  });

  /** Of the last, where the worker makes the records, another test sees to it. */
  const onceAnswered = ['getOutcome', 'getClientSummary', 'drawClientSummary', 'getSlotOffer'];

  it('but is there for its own studio', async () => {
    const reads = withRecord.filter(({ method, id }) => method === 'GET' && !onceAnswered.includes(id));
    expect(reads.length).toBeGreaterThanOrEqual(8);
    for (const operation of reads) {
      expect([operation.id, (await call(api.url, operation, { ids, token: own })).status]).toEqual([
        operation.id,
        200,
      ]);
    }
  });

  it.each(['createAppointment', 'openFitSession'])('nor can %s name it in a body', async (id) => {
    const operation = operations.find((item) => item.id === id);
    if (!operation) throw new Error(`no operation ${id}`);
    const answer = await call(api.url, operation, { ids, token: other });
    expect([404, 422]).toContain(answer.status);
  });

  it('lists nothing of it', async () => {
    const { items } = await dataOf(elsewhere.owner.GET('/v1/clients'));
    expect(items).toEqual([]);
    const range = { from: '2090-01-01T00:00:00Z', to: '2091-01-01T00:00:00Z' };
    const appointments = await dataOf(elsewhere.owner.GET('/v1/appointments', { params: { query: range } }));
    expect(appointments.items).toEqual([]);
  });
});

describe('without a sign-in', () => {
  const open = [
    'live',
    'ready',
    'signIn',
    'refreshSignIn',
    'endSignIn',
    'beginFirstSecondFactor',
    'confirmFirstSecondFactor',
    'requestPasswordReset',
    'choosePassword',
    'openFollowUpLink',
    'answerFollowUp',
    'readStoredObject',
    'takeMailReport',
  ];

  it('exactly these routes are open', () => {
    expect(
      operations
        .filter(({ secured }) => !secured)
        .map(({ id }) => id)
        .sort(),
    ).toEqual([...open].sort());
  });

  it.each(operations.filter(({ secured }) => secured).map((operation) => [operation.id, operation] as const))(
    '%s is refused',
    async (_, operation) => {
      const ids = { clientId: '0199d000-0000-7000-8000-00000000ffff' };
      expect(await call(api.url, operation, { ids })).toMatchObject({
        status: 401,
        problem: { code: 'access.not-signed-in' },
      });
      expect(await call(api.url, operation, { ids, token: 'a.b.c' })).toMatchObject({ status: 401 });
    },
  );
});

describe('roles', () => {
  it('keep findings and outcomes from the front desk, and the review for the owner', async () => {
    const client = await takeOnClient(here.owner);
    await screen(here.owner, client.clientId);
    const of = { params: { path: { clientId: client.clientId } } };
    for (const response of [
      (await here.desk.GET('/v1/clients/{clientId}/screenings', of)).response,
      (await here.desk.GET('/v1/outcomes/review')).response,
      (await here.desk.GET('/v1/fit-sessions', { params: { query: { clientId: client.clientId } } }))
        .response,
      (await here.desk.POST('/v1/services', { body: { name: 'Other', durationMinutes: 60 } })).response,
    ]) {
      expect(response.status).toBe(403);
    }
    expect(await dataOf(here.desk.GET('/v1/clients/{clientId}/desk-notice', of))).toEqual({
      notice: 'may_be_booked',
    });
  });
});

describe('sign-in', () => {
  const credentials = () => ({ studio: here.studio.handle, ...here.studio.owner });

  it('says the same for a wrong studio, address and password', async () => {
    const { studio, email, password } = credentials();
    const tries = [
      { studio: 'no-such-studio', email, password },
      { studio, email: 'nobody@nowhere.example', password },
      { studio, email, password: 'not the password' },
    ];
    const answers = await Promise.all(
      tries.map(async (body) => (await openClient(api.url).POST('/v1/sign-ins', { body })).error),
    );
    for (const answer of answers) expect(answer).toMatchObject({ status: 401, code: 'sign-ins.refused' });
  });

  it('exchanges each refresh token once; an old one ends the sign-in', async () => {
    const open = openClient(api.url);
    const { studio, email, password } = credentials();
    const first = await dataOf(open.POST('/v1/sign-ins', { body: { studio, email, password } }));
    const refresh = (refreshToken: string) =>
      dataOf(open.POST('/v1/sign-ins/refresh', { body: { refreshToken } }));
    const second = await refresh(first.refreshToken);
    await expect(refresh(first.refreshToken)).rejects.toMatchObject({ code: 'sign-ins.refresh-refused' });
    await expect(refresh(second.refreshToken)).rejects.toBeInstanceOf(ProblemError);
  });

  it('gives one of two simultaneous refreshes a new pair at most', async () => {
    const open = openClient(api.url);
    const { studio, email, password } = credentials();
    const { refreshToken } = await dataOf(open.POST('/v1/sign-ins', { body: { studio, email, password } }));
    const both = await Promise.all(
      [1, 2].map(() => open.POST('/v1/sign-ins/refresh', { body: { refreshToken } })),
    );
    expect(both.map(({ response }) => response.status).sort()).toEqual([201, 401]);
  });

  it('ends when it is ended', async () => {
    const open = openClient(api.url);
    const { studio, email, password } = credentials();
    const { refreshToken } = await dataOf(open.POST('/v1/sign-ins', { body: { studio, email, password } }));
    await dataOf(open.POST('/v1/sign-ins/end', { body: { refreshToken } }));
    await expect(dataOf(open.POST('/v1/sign-ins/refresh', { body: { refreshToken } }))).rejects.toMatchObject(
      { status: 401 },
    );
  });
});

describe('bad input', () => {
  it.each([
    ['an unknown field', { givenName: 'A', familyName: 'B', shoeSize: 43 }, 'shoeSize'],
    ['a missing field', { givenName: 'A' }, 'familyName'],
    ['a wrong type', { givenName: 7, familyName: 'B' }, 'givenName'],
    ['a day the calendar lacks', { givenName: 'A', familyName: 'B', bornOn: '2001-02-30' }, 'bornOn'],
    ['a character no text can hold', { givenName: 'A\u0000', familyName: 'B' }, 'givenName'],
  ])('%s is told with its name, and nothing is written', async (_, body, field) => {
    const count = async () => (await dataOf(elsewhere.owner.GET('/v1/clients'))).items.length;
    const before = await count();
    const { error, response } = await elsewhere.owner.POST('/v1/clients', { body: body as never });
    expect(response.headers.get('content-type')).toContain('application/problem+json');
    expect(error).toMatchObject({ status: 400, code: 'request.invalid', errors: [{ field }] });
    expect(await count()).toBe(before);
  });

  it('that is no JSON, or too much of it, is a problem document too', async () => {
    const token = await tokenOf(here);
    const post = (body: string) =>
      fetch(`${api.url}/v1/clients`, {
        method: 'POST',
        headers: { authorization: `Bearer ${token}`, 'content-type': 'application/json' },
        body,
      });
    expect(await (await post('{"givenName":')).json()).toMatchObject({ status: 400 });
    expect(await (await post(`"${'x'.repeat(300_000)}"`)).json()).toMatchObject({
      status: 413,
      code: 'request.too-large',
    });
  });

  it('a measurement session opened for nobody is told which', async () => {
    const client = await takeOnClient(here.owner);
    await screen(here.owner, client.clientId);
    const session = await openMeasuredSession(here.owner, client);
    expect(session).toMatch(/^[0-9a-f-]{36}$/);
    const wrongBike = { ...client, bikeId: '0199d000-0000-7000-8000-00000000ffff' };
    const { error } = await here.owner.POST('/v1/fit-sessions', { body: wrongBike });
    expect(error).toMatchObject({ status: 422, errors: [{ field: 'bikeId' }] });
  });
});

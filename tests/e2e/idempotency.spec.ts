import { afterAll, beforeAll, expect, it } from '@jest/globals';
import { dataOf, type components, type StudioClient } from '@studio/api-client';
import pg from 'pg';
import { freeLine, issueDocument, issuedReceipt, setUpAccounts } from '../helpers/accounts.js';
import { creates } from '../helpers/creates.js';
import { film, motionCsv } from '../helpers/motion.js';
import { call } from '../helpers/openapi.js';
import { nothingWrong, openMeasuredSession, screen, signedSession, takeOnClient } from '../helpers/rider.js';
import { judge } from '../helpers/shoe-work.js';
import { giveMark, tokenOf } from '../helpers/staff.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';

type Bodies = Readonly<Record<string, unknown>>;

let api: TestApi;
let studio: TestStudio;
let token: string;
let ids: Record<string, string>;
/** Where the sample of the document is not enough, or was used by another create. */
let bodies: Bodies;
/** Ids of a path that another create has no use for. */
let idsOf: Readonly<Record<string, Record<string, string>>>;

beforeAll(async () => {
  api = await startTestApi();
  studio = await openTestStudio(api);
  const { owner, desk, serviceId, roomId } = studio;
  await giveMark(studio, owner.signedIn.id);
  token = await tokenOf(studio, studio.studio.owner.email);
  const newClient = async () =>
    (await dataOf(desk.POST('/v1/clients', { body: { givenName: 'Sam', familyName: 'Sprint' } }))).id;

  const client = await takeOnClient(owner);
  const { clientId } = client;
  await screen(owner, clientId);
  const { fitSessionId: signedId } = await signedSession(owner, client);
  const fitSessionId = await openMeasuredSession(owner, client);
  const worked = await takeOnClient(owner, 'worked@riders.example');
  await screen(owner, worked.clientId);
  await judge(owner, worked);
  const path = { params: { path: { fitSessionId } } };
  const { measurements } = await dataOf(owner.GET('/v1/fit-sessions/{fitSessionId}', path));
  const of = { params: { path: { clientId } } };
  const note = await dataOf(
    desk.POST('/v1/clients/{clientId}/notes', { ...of, body: { text: 'Mornings.' } }),
  );
  const found = await takeOnClient(owner, 'found@riders.example');
  const raised = { ...nothingWrong, leg_swelling_one_sided_new: 'yes' };
  const { id: screeningId = '' } = await screen(owner, found.clientId, raised);

  const lines = [freeLine(1000)];
  await setUpAccounts(owner);
  const [receipt, other] = [
    await issuedReceipt(desk, { clientId, lines }),
    await issuedReceipt(desk, { clientId, lines }),
  ];
  const quote = await dataOf(
    issueDocument(
      desk,
      await dataOf(desk.POST('/v1/account-documents', { body: { kind: 'quote', clientId, lines } })),
    ),
  );
  const money = { method: 'cash' as const, amountMinor: 100 };
  const pay = (body: Parameters<typeof recordPayment>[1]) => recordPayment(desk, body);
  const deposit = await pay({ ...money, kind: 'deposit', clientId });
  const mistaken = await pay({ ...money, kind: 'payment', documentId: receipt.id });

  const visit = { serviceId, roomId, fitterId: owner.signedIn.id, evenOutsideHours: true };
  const at = (day: number) => ({ ...visit, startsAt: `2090-03-0${day}T09:00:00Z` });
  // Its confirmation is the message that failed.
  await dataOf(desk.POST('/v1/appointments', { body: { clientId, ...at(5) } }));

  const [plan] = await dataOf(owner.GET('/v1/follow-up-plans'));
  const template = 'appointment_confirmed';
  ids = { ...client, serviceId, roomId, fitterId: owner.signedIn.id, fitSessionId, visitStage: 'bench' };
  const { id: rightsRequestId } = await dataOf(
    desk.POST('/v1/clients/{clientId}/rights-requests', { ...of, body: { kind: 'access' } }),
  );
  await dataOf(
    owner.POST('/v1/rights-requests/{rightsRequestId}/identity-check', {
      params: { path: { rightsRequestId }, header: { 'If-Match': '"1"' } },
      body: { how: 'Came in person.' },
    }),
  );
  ids = {
    ...ids,
    rightsRequestId,
    clientNoteId: note.id,
    screeningId,
    measurementId: measurements[0]?.id ?? '',
  };
  idsOf = {
    giveClinicianMark: { staffId: owner.signedIn.id },
    openRecord: { clientId: await restricted(await newClient()) },
    giveConsent: { clientId: await newClient() },
    amendFitSession: { fitSessionId: signedId },
    createCreditNote: { documentId: receipt.id },
    makeReceiptOfQuote: { documentId: quote.id },
    reversePayment: { paymentId: mistaken.id },
    useDeposit: { paymentId: deposit.id },
    openShoeWork: { fitSessionId: await openMeasuredSession(owner, worked) },
    writeMessageText: { template },
    restoreMessageText: { template },
    repeatMessage: { messageId: await failedMessage(clientId) },
    answerFollowUpByPhone: { followUpId: await followUpToPhone(clientId) },
  };
  bodies = {
    giveClinicianMark: { registration: 'Register of physiotherapists, 00000', checkedOn: '2026-01-02' },
    recordClinicianScore: { exerciseIndex: { restIndex: 1.02, afterIndex: 0.98 } },
    mergeClient: { mergedClientId: await newClient() },
    linkClient: { otherClientId: await newClient(), kind: 'team_mate' },
    createService: { name: 'Second fit', durationMinutes: 30 },
    createTaxRate: { taxClass: 'zero', taxRatePercent: '0', validFrom: '2026-01-01' },
    createRoom: { name: 'Second bay' },
    createAccountDocument: { kind: 'receipt', lines },
    recordPayment: { ...money, kind: 'payment', documentId: other.id },
    useDeposit: { documentId: other.id },
    createAppointment: { clientId, ...at(2) },
    createAppointmentSeries: { clientId, visits: [at(3), at(4)] },
    createScreening: { questionSetId: 'rider-intake', questionSetVersion: '2', answers: nothingWrong },
    createIntakeLink: { delivery: 'mail' },
    addMeasurement: { kind: 'inseam', method: 'tape', repeats: [820], unit: 'mm' },
    correctMeasurement: {
      ...{ kind: 'thigh_length', side: 'left', method: 'tape', repeats: [43], unit: 'cm' },
      reason: 'Read from the wrong mark.',
    },
    amendFitSession: { text: 'The stem is 100 mm.' },
    planCleat: { side: 'left' },
    makePlan: { kind: 'cleat', side: 'left' },
    pairPositions: {
      first: { fitSessionId: signedId, use: 'racing' },
      second: { bikeId: client.bikeId, shoeId: client.shoeId, use: 'training' },
      because: 'Two uses of one bike.',
    },
    importMotion: { side: 'left', csv: motionCsv(), film },
    createWish: { clientId, serviceId, firstDay: '2090-03-02', lastDay: '2090-03-03' },
    createFollowUpPlan: { id: 'crank-change', name: 'After a longer crank', steps: plan?.steps },
    addFollowUp: { fitSessionId: signedId, dueOn: '2090-07-01', because: 'Before the first race.' },
    createWebhookEndpoint: { url: 'http://127.0.0.1:9/hooks', events: ['appointment.booked'] },
  };
});
afterAll(() => api.close());

const recordPayment = (desk: StudioClient, body: components['schemas']['CreatePaymentRequest']) =>
  dataOf(desk.POST('/v1/payments', { body }));

/** Changes what only the worker changes. */
async function asWorker(sql: string, clientId: string): Promise<string> {
  const admin = new pg.Client({ connectionString: api.database.adminUrl });
  await admin.connect();
  const { rows } = await admin.query<{ id: string }>(sql, [clientId]);
  await admin.end();
  return rows[0]?.id ?? '';
}
const failedMessage = (clientId: string) =>
  asWorker(`UPDATE messages SET state = 'failed' WHERE client_id = $1 RETURNING id`, clientId);
const restricted = (clientId: string) =>
  asWorker(`UPDATE clients SET restricted_at = app_now() WHERE id = $1 RETURNING id`, clientId);
const followUpToPhone = (clientId: string) =>
  asWorker(`UPDATE follow_ups SET state = 'phoned' WHERE client_id = $1 RETURNING id`, clientId);

/** The settings are made in the beginning; what is not sent as JSON has tests of its own. */
const elsewhere = ['createAccountSettings', 'uploadFile', 'uploadClientImport'];

it.each(
  creates
    .filter(({ takesKey, id }) => takesKey && !elsewhere.includes(id))
    .map((operation) => [operation.id, operation] as const),
)('%s, asked for twice, is done once and answers the same', async (id, operation) => {
  const options = {
    ...{ token, ids: { ...ids, ...idsOf[id] } },
    ...(id in bodies && { body: bodies[id] }),
    headers: { 'Idempotency-Key': `once-${id}` },
  };
  const ask = async () => {
    const { status, problem } = await call(api.url, operation, options);
    return { status, problem };
  };
  const first = await ask();
  expect(first).toMatchObject({ status: 201 });
  expect(await ask()).toEqual(first);
});

it('the settings of the accounts are made once as well', async () => {
  const { owner } = await openTestStudio(api);
  const make = () =>
    dataOf(
      owner.POST('/v1/account-settings', {
        params: { header: { 'Idempotency-Key': 'settings' } },
        body: { currency: 'EUR', taxIncluded: true, sellerName: 'Quayside Fitting' },
      }),
    );
  expect(await make()).toEqual(await make());
});

it('a list of clients is taken once as well', async () => {
  const upload = () =>
    studio.desk.POST('/v1/client-imports', {
      body: 'First name,Last name\nAna,Olsen\n',
      bodySerializer: (body: string) => body,
      headers: { 'content-type': 'text/csv', 'Idempotency-Key': 'once-list' },
    });
  const first = await dataOf(upload());
  expect(await dataOf(upload())).toEqual(first);
});

import { dataOf } from '@studio/api-client';
import { freeLine, issuedReceipt, setUpAccounts } from './accounts.js';
import { uploadPhoto } from './files.js';
import { film, motionCsv } from './motion.js';
import { nothingWrong, openMeasuredSession, screen, signedSession, takeOnClient } from './rider.js';
import { openShoeWork } from './shoe-work.js';
import type { TestStudio } from './studio.js';

/** One record of every kind in a studio, and its id by the name that paths call it by. */
export async function makeEveryRecord(here: TestStudio): Promise<Record<string, string>> {
  const client = await takeOnClient(here.owner);
  const { id: screeningId = '' } = await screen(here.owner, client.clientId);
  const { fitSessionId, cleatPlanId } = await signedSession(here.owner, client);
  const shoeWork = await openShoeWork(here.owner, client);
  const { positions, measurements } = await dataOf(
    here.owner.GET('/v1/fit-sessions/{fitSessionId}', { params: { path: { fitSessionId } } }),
  );
  const recording = await dataOf(
    here.owner.POST('/v1/fit-sessions/{fitSessionId}/motion-recordings', {
      params: { path: { fitSessionId: await openMeasuredSession(here.owner, client) } },
      body: { side: 'left', csv: motionCsv(), film },
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
      body: {
        name: 'table',
        roles: ['fitter'],
        expiresAt: new Date(Date.now() + 30 * 86_400_000).toISOString(),
      },
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
  const { id: rightsRequestId } = await dataOf(
    here.desk.POST('/v1/clients/{clientId}/rights-requests', { ...of, body: { kind: 'access' } }),
  );
  await dataOf(
    here.owner.POST('/v1/rights-requests/{rightsRequestId}/identity-check', {
      params: { path: { rightsRequestId }, header: { 'If-Match': '"1"' } },
      body: { how: 'Came in person.' },
    }),
  );
  const copy = await dataOf(
    here.owner.POST('/v1/rights-requests/{rightsRequestId}/exports', {
      params: { path: { rightsRequestId } },
    }),
  );
  return {
    ...{ rightsRequestId, personExportId: copy.id },
    motionRecordingId: recording.id,
    pairedPositionId: pair.id,
    fitSheetId: sheet.id,
    fileId: file.id,
    ...{ shoeWorkId: shoeWork.id, step: 'photographed', shoe: 'left' },
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
}

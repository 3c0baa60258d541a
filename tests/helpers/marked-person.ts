import { dataOf, type StudioClient } from '@studio/api-client';
import { freeLine, issuedReceipt, setUpAccounts } from './accounts.js';
import { uploadPhoto } from './files.js';
import { openIntake, send, visit } from './intake.js';
import { nothingNew, nothingWrong, screen, signedSession, type TestClient } from './rider.js';
import type { TestApi, TestStudio } from './studio.js';

/** What is looked for everywhere afterwards: nothing else has these words. */
export const marked = {
  givenName: 'Zebulonia',
  familyName: 'Quartermain-Voss',
  email: 'zebulonia@qvoss.example',
  phone: '+45 31 41 59 26',
  phoneE164: '+4531415926',
  bornOn: '1981-07-23',
  /** A word in every text that is written about the person. */
  word: 'Marzipankoffer',
} as const;

const text = (about: string): string => `${marked.word}: ${about}`;

/** A person of whom the studio keeps something in every way it can, each with a word to find it by. */
export async function takeOnMarkedPerson(
  api: TestApi,
  here: TestStudio,
): Promise<TestClient & { fitSessionId: string }> {
  const { owner, desk } = here;
  const { phoneE164, word, ...fields } = marked;
  const client = await dataOf(
    desk.POST('/v1/clients', {
      params: { header: { 'Idempotency-Key': 'marked' } },
      body: { ...fields, tags: [word.toLowerCase()], note: text('a note'), language: 'en' },
    }),
  );
  const of = { params: { path: { clientId: client.id } } };
  for (const kind of ['data', 'health_data', 'contact'] as const)
    await dataOf(desk.POST('/v1/clients/{clientId}/consents', { ...of, body: { kind, textVersion: '1' } }));
  await asTheDeskKnowsThem(here, client.id);
  const equipment = await withEquipment(owner, client.id);
  await beforeTheFit(api, here, client.id);
  const fitSessionId = await duringTheFit(here, { clientId: client.id, ...equipment });
  await afterTheFit(here, client.id, fitSessionId);
  return { clientId: client.id, ...equipment, fitSessionId };
}

async function asTheDeskKnowsThem({ desk, owner, serviceId, roomId }: TestStudio, clientId: string) {
  const of = { params: { path: { clientId } } };
  await dataOf(desk.POST('/v1/clients/{clientId}/notes', { ...of, body: { text: text('a dated note') } }));
  const { givenName, familyName, email, phone, bornOn } = marked;
  const body = { givenName, familyName, email, phone, bornOn, note: text('of the other record') };
  const again = await dataOf(desk.POST('/v1/clients', { body }));
  await dataOf(desk.POST('/v1/clients/{clientId}/merges', { ...of, body: { mergedClientId: again.id } }));
  const friend = await dataOf(
    desk.POST('/v1/clients', { body: { givenName: 'Kim', familyName: 'Friend', guardianId: clientId } }),
  );
  const link = { otherClientId: friend.id, kind: 'team_mate' as const };
  await dataOf(desk.POST('/v1/clients/{clientId}/links', { ...of, body: link }));
  await dataOf(
    desk.POST('/v1/client-imports', {
      body: `First name,Last name,Mail\n${givenName},${familyName},${email}\n`,
      bodySerializer: (list: string) => list,
      headers: { 'content-type': 'text/csv' },
    }),
  );
  const visitAt = {
    clientId,
    serviceId,
    roomId,
    fitterId: owner.signedIn.id,
    startsAt: '2090-03-02T09:00:00Z',
  };
  const booked = await dataOf(desk.POST('/v1/appointments', { body: visitAt }));
  await dataOf(
    desk.POST('/v1/appointments/{appointmentId}/cancellation', {
      params: { path: { appointmentId: booked.id }, header: { 'If-Match': `"${booked.version}"` } },
      body: { reason: text('why it was cancelled') },
    }),
  );
  await dataOf(
    desk.POST('/v1/waiting-list', {
      body: { clientId, serviceId, firstDay: '2090-03-02', lastDay: '2090-03-03' },
    }),
  );
}

async function withEquipment(owner: StudioClient, clientId: string) {
  const of = { params: { path: { clientId } } };
  const bike = await dataOf(
    owner.POST('/v1/clients/{clientId}/bikes', {
      ...of,
      body: { name: text('bike'), crankLengthMm: 172.5, seatTubeAngleDeg: 73 },
    }),
  );
  const shoe = await dataOf(
    owner.POST('/v1/clients/{clientId}/shoes', {
      ...of,
      body: {
        ...{ name: text('shoes'), outerLengthMm: 290, holePattern: 'three_bolt', archChannel: false },
        ...{ slotFrontFromHeelMm: 212, slotRearFromHeelMm: 197 },
      },
    }),
  );
  await dataOf(
    owner.POST('/v1/clients/{clientId}/shoes/{shoeId}/hardware', {
      params: { path: { clientId, shoeId: shoe.id }, header: { 'If-Match': '"1"' } },
      body: { side: 'left', kind: 'cleat_shim', note: text('a shim') },
    }),
  );
  return { bikeId: bike.id, shoeId: shoe.id };
}

async function beforeTheFit(api: TestApi, { owner, desk }: TestStudio, clientId: string) {
  await screen(desk, clientId, {
    ...nothingWrong,
    bone_pain_on_loading: 'yes',
    history: text('an old injury'),
    goals_in_own_words: text('goals'),
  });
  const of = { params: { path: { clientId } } };
  const [referral] = await dataOf(owner.GET('/v1/clients/{clientId}/referrals', of));
  const ofCase = { params: { path: { referralId: referral?.id ?? '' } } };
  await dataOf(owner.POST('/v1/referrals/{referralId}/hand-over', { ...ofCase, body: { how: 'in_person' } }));
  await dataOf(
    owner.POST('/v1/referrals/{referralId}/answer', {
      ...ofCase,
      body: {
        ...{ clinician: 'Dr A. Holm', registration: 'reg. 00000', answeredOn: '2026-03-05' },
        answer: text('what the clinician answered'),
      },
    }),
  );
  await dataOf(
    owner.POST('/v1/referrals/{referralId}/clearance', {
      ...ofCase,
      body: {
        reason: text('why it was cleared'),
        clearedByClinician: 'Dr A. Holm',
        registration: 'reg. 00000',
      },
    }),
  );
  const link = `${api.url}${await openIntake(desk, clientId)}`;
  const first = await visit(`${link}/start`, [['consent', 'yes']]);
  await send(api.url, first, { ...nothingWrong, goals_in_own_words: text('not handed in') });
}

async function duringTheFit({ owner }: TestStudio, client: TestClient): Promise<string> {
  const { fitSessionId } = await signedSession(owner, client, async (session) => {
    const of = { params: { path: { fitSessionId: session } } };
    await dataOf(
      owner.PUT('/v1/fit-sessions/{fitSessionId}/place', {
        ...of,
        body: { stage: 'bench', note: text('place') },
      }),
    );
    await dataOf(
      owner.PUT('/v1/fit-sessions/{fitSessionId}/chosen-activities', {
        ...of,
        body: { activities: [{ activity: text('climbing'), ability: 4 }] },
      }),
    );
    const change = await dataOf(
      owner.POST('/v1/fit-sessions/{fitSessionId}/changes', {
        ...of,
        body: { items: [{ what: 'saddleHeightMm', from: 740, to: 735 }], why: text('why lower') },
      }),
    );
    await dataOf(
      owner.PUT('/v1/fit-sessions/{fitSessionId}/changes/{changeId}/response', {
        params: { path: { fitSessionId: session, changeId: change.id } },
        body: { comfort: 60, remarks: text('what the rider said') },
      }),
    );
    await dataOf(
      owner.POST('/v1/fit-sessions/{fitSessionId}/complaints', {
        ...of,
        body: { questionSetVersion: '1', answers: nothingNew, remarks: text('a complaint') },
      }),
    );
    const { measurements } = await dataOf(owner.GET('/v1/fit-sessions/{fitSessionId}', of));
    const again = await dataOf(
      owner.POST('/v1/fit-sessions/{fitSessionId}/measurements', {
        ...of,
        body: { kind: 'shank_length', side: 'left', method: 'calliper', repeats: [425], unit: 'mm' },
      }),
    );
    await dataOf(
      owner.POST('/v1/fit-sessions/{fitSessionId}/measurements/{measurementId}/withdrawal', {
        params: { path: { fitSessionId: session, measurementId: again.id } },
        body: { reason: text('why it was withdrawn') },
      }),
    );
    if (measurements.length === 0) throw new Error('nothing was measured');
    await uploadPhoto(owner, client.clientId, {
      ...{ name: `${marked.word}.png`, caption: text('a photo'), fitSessionId: session },
    });
  });
  return fitSessionId;
}

async function afterTheFit({ owner, desk }: TestStudio, clientId: string, fitSessionId: string) {
  const of = { params: { path: { fitSessionId } } };
  await dataOf(
    owner.POST('/v1/fit-sessions/{fitSessionId}/amendments', { ...of, body: { text: text('an amendment') } }),
  );
  await dataOf(
    owner.POST('/v1/fit-sessions/{fitSessionId}/fit-sheets', { ...of, body: { audience: 'studio' } }),
  );
  await setUpAccounts(owner);
  const receipt = await issuedReceipt(desk, {
    ...{ clientId, buyerName: `${marked.givenName} ${marked.familyName}`, note: text('printed') },
    lines: [freeLine(10_000, { description: text('a line') })],
  });
  await dataOf(
    desk.POST('/v1/payments', {
      body: {
        ...{ kind: 'payment', method: 'cash', amountMinor: 10_000, documentId: receipt.id },
        note: text('paid'),
      },
    }),
  );
}

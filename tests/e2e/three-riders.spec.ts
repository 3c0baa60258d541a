import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf, type components } from '@studio/api-client';
import type { ChildProcess } from 'node:child_process';
import { onlyWhenReady } from '../helpers/fit-sheets.js';
import { askedOn, openIntake, send, visit } from '../helpers/intake.js';
import { film, motionCsv } from '../helpers/motion.js';
import { pdfText } from '../helpers/pdf.js';
import { nothingWrong } from '../helpers/rider.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';
import { startWorker, stop } from '../helpers/worker.js';

type Schemas = components['schemas'];
type Side = 'left' | 'right';

let api: TestApi;
let studio: TestStudio;
let worker: ChildProcess;

beforeAll(async () => {
  api = await startTestApi();
  studio = await openTestStudio(api);
  worker = startWorker(api, 'three-riders');
}, 60_000);
afterAll(async () => {
  await stop(worker);
  await api.close();
});

interface Visitor {
  readonly client: Schemas['CreateClientRequest'];
  readonly intake: Readonly<Record<string, unknown>>;
  readonly startsAt: string;
  readonly bike: Schemas['CreateBikeRequest'];
  readonly shoe: Schemas['CreateShoeRequest'];
}

interface Visit {
  readonly clientId: string;
  readonly appointmentId: string;
  readonly fitSessionId: string;
}

/** Taken on and booked by the desk; the rider answers the intake by link; the fitter opens the session. */
async function receive({ client, intake, startsAt, bike, shoe }: Visitor): Promise<Visit> {
  const { desk, owner } = studio;
  const { id: clientId } = await dataOf(desk.POST('/v1/clients', { body: client }));
  const of = { params: { path: { clientId } } };
  for (const kind of ['data', 'health_data', 'contact'] as const) {
    await dataOf(desk.POST('/v1/clients/{clientId}/consents', { ...of, body: { kind, textVersion: '1' } }));
  }
  const { id: appointmentId } = await dataOf(
    desk.POST('/v1/appointments', {
      body: {
        ...{ clientId, serviceId: studio.serviceId, roomId: studio.roomId, startsAt },
        fitterId: owner.signedIn.id,
      },
    }),
  );
  const link = await openIntake(desk, clientId);
  let page = await visit(`${api.url}${link}/start`, []);
  while (askedOn(page).length > 0) {
    page = await send(api.url, page, intake);
    if (page.status !== 200) throw new Error(`${page.path}: ${page.status}`);
  }
  expect((await visit(`${api.url}${link}/submit`, [])).status).toBe(200);
  const { id: bikeId } = await dataOf(owner.POST('/v1/clients/{clientId}/bikes', { ...of, body: bike }));
  const { id: shoeId } = await dataOf(owner.POST('/v1/clients/{clientId}/shoes', { ...of, body: shoe }));
  const opening = { clientId, bikeId, shoeId, appointmentId };
  const { id: fitSessionId } = await dataOf(owner.POST('/v1/fit-sessions', { body: opening }));
  return { clientId, appointmentId, fitSessionId };
}

const inSession = ({ fitSessionId }: Visit) => ({ params: { path: { fitSessionId } } });

const units: Readonly<Record<string, 'deg'>> = { foot_pitch: 'deg', knee_flexion_straightest: 'deg' };

/** One reading each, in mm or degrees. */
async function measure(
  visitor: Visit,
  readings: Partial<Record<Schemas['MeasurementRequest']['kind'], number>>,
  ...sides: Side[]
): Promise<void> {
  const measurements = (sides.length === 0 ? [undefined] : sides).flatMap((side) =>
    Object.entries(readings).map(([kind, reading]) => ({
      kind: kind as Schemas['MeasurementRequest']['kind'],
      ...(side !== undefined && { side }),
      method: units[kind] ? ('video' as const) : ('calliper' as const),
      repeats: [reading],
      unit: units[kind] ?? ('mm' as const),
    })),
  );
  for (const body of measurements) {
    await dataOf(
      studio.owner.POST('/v1/fit-sessions/{fitSessionId}/measurements', { ...inSession(visitor), body }),
    );
  }
}

const putBaseline = (visitor: Visit, body: Schemas['BaselineRequest']) =>
  dataOf(studio.owner.PUT('/v1/fit-sessions/{fitSessionId}/baseline', { ...inSession(visitor), body }));

const putPosition = ({ fitSessionId }: Visit, stage: 'found' | 'left', body: Schemas['PositionRequest']) =>
  dataOf(
    studio.owner.PUT('/v1/fit-sessions/{fitSessionId}/positions/{stage}', {
      params: { path: { fitSessionId, stage } },
      body,
    }),
  );

async function planAndChoose(
  visitor: Visit,
  body: Schemas['MakePlanRequest'],
  option: string,
  because: string,
): Promise<Schemas['PlanResponse']> {
  const { owner } = studio;
  const plan = await dataOf(
    owner.POST('/v1/fit-sessions/{fitSessionId}/plans', { ...inSession(visitor), body }),
  );
  const params = { path: { planId: plan.id } };
  return dataOf(owner.POST('/v1/plans/{planId}/choice', { params, body: { option, because } }));
}

async function changeOne(
  visitor: Visit,
  item: Schemas['ChangeItem'],
  why: string,
  response: Schemas['RiderResponseRequest'],
): Promise<void> {
  const { owner } = studio;
  const { id: changeId } = await dataOf(
    owner.POST('/v1/fit-sessions/{fitSessionId}/changes', {
      ...inSession(visitor),
      body: { items: [item], why },
    }),
  );
  const params = { path: { ...inSession(visitor).params.path, changeId } };
  await dataOf(
    owner.PUT('/v1/fit-sessions/{fitSessionId}/changes/{changeId}/response', { params, body: response }),
  );
}

async function signed(visitor: Visit, body: Schemas['SignSessionRequest'] = {}) {
  const { missing, ...before } = await dataOf(
    studio.owner.GET('/v1/fit-sessions/{fitSessionId}/sign-off', inSession(visitor)),
  );
  expect(missing).toEqual([]);
  const session = await dataOf(
    studio.owner.POST('/v1/fit-sessions/{fitSessionId}/sign-off', { ...inSession(visitor), body }),
  );
  return { before, session };
}

/** What the sheet says, on paper as poppler reads it or else as its page; words parted by single spaces. */
async function sheetOf(visitor: Visit, body: Schemas['OrderFitSheetRequest']) {
  const ordered = await dataOf(
    studio.owner.POST('/v1/fit-sessions/{fitSessionId}/fit-sheets', { ...inSession(visitor), body }),
  );
  const { documents } = await onlyWhenReady(studio.owner, ordered.id);
  const address = (name: string): string => documents.find((item) => item.name === name)?.url ?? '';
  const page = await (await fetch(address('page.html'))).text();
  const text = page.replace(/<[^>]+>/g, ' ').replace(/\s+/g, ' ');
  return { text: (await pdfText(address('sheet.pdf'))) ?? text, drawings: documents.length - 2, page };
}

const predictions = (visitor: Visit) =>
  dataOf(studio.owner.GET('/v1/fit-sessions/{fitSessionId}/predictions', inSession(visitor)));

const roadShoe: Schemas['CreateShoeRequest'] = {
  ...{ name: 'Road shoes', outerLengthMm: 290, holePattern: 'three_bolt', archChannel: false },
  ...{ slotFrontFromHeelMm: 212, slotRearFromHeelMm: 197 },
};

// All three are invented.
describe('from the booking to the fit sheet', () => {
  it('a toe-pointer whose forefoot goes numb: cleats back, saddle down', async () => {
    const visitor = await receive({
      client: { givenName: 'Ilse', familyName: 'Marbach', email: 'ilse@riders.example' },
      intake: { ...nothingWrong, foot_numb_on_bike: 'yes' },
      startsAt: '2089-01-10T08:00:00Z',
      bike: {
        name: 'Road bike',
        kind: 'road',
        crankLengthMm: 172.5,
        seatTubeAngleDeg: 73,
        uses: ['training'],
      },
      shoe: roadShoe,
    });
    await putBaseline(visitor, { pain: 5, comfort: 45, numbness: true, power20MinW: 231 });
    const leg = { thigh_length: 434, shank_length: 425, foot_lever: 140, ankle_above_spindle: 120 };
    const foot = { mth1_from_heel: 210, cleat_from_heel: 205, knee_flexion_straightest: 35, foot_pitch: 20 };
    await measure(visitor, { ...leg, ...foot }, 'left', 'right');
    await measure(visitor, { stature: 1770 });
    const recording = await dataOf(
      studio.owner.POST('/v1/fit-sessions/{fitSessionId}/motion-recordings', {
        ...inSession(visitor),
        body: { side: 'right', csv: motionCsv(), film: { ...film, sideSeen: 'right' } },
      }),
    );
    expect(recording.heelPosture).toBe('toe-pointed');
    const found: Schemas['PositionRequest'] = {
      ...{ saddleHeightMm: 740, saddleSetbackMm: 60, barReachMm: 530, barDropMm: 60 },
      ...{ cleatBehindMth1LeftMm: 5, cleatBehindMth1RightMm: 5, method: 'tape' },
    };
    await putPosition(visitor, 'found', found);
    const because = 'Most of the effect, and it can be undone.';
    for (const side of ['left', 'right'] as const) {
      const plan = await planAndChoose(visitor, { kind: 'cleat', side }, 'rear_plate_24', because);
      const kind = side === 'right' ? 'motion_recording' : 'measurement';
      expect(plan.footPitchFrom).toMatchObject([{ side, kind }]);
    }
    await changeOne(visitor, { what: 'saddleHeightMm', from: 740, to: 727 }, 'As the plan computes it.', {
      comfort: 60,
      pains: [],
      remarks: 'The toes stay warm.',
    });
    await putPosition(visitor, 'left', {
      ...found,
      ...{ saddleHeightMm: 727, barDropMm: 47, cleatBehindMth1LeftMm: 37, cleatBehindMth1RightMm: 37 },
    });
    const beside = await predictions(visitor);
    expect(beside.filter(({ field }) => field === 'cleatBehindMth1RightMm')).toMatchObject([
      { found: 5, predicted: 37, left: 37, withinError: true },
    ]);
    const { before, session } = await signed(visitor);
    expect(before).toMatchObject({
      advice: { stage: 'large_change' },
      followUpPlan: { id: 'large-cleat-change' },
    });
    expect(session.followUps).toHaveLength(4);

    const { text, drawings } = await sheetOf(visitor, { audience: 'studio', lengths: 'mm_and_inch' });
    expect(drawings).toBe(3);
    for (const words of [
      'Ilse Marbach – Road bike, Road shoes',
      'Saddle height 740 mm (29.13 in) 727 mm (28.62 in) −13 mm',
      'Right: rear plate 24, the cleat 32 mm back to 173 mm from the heel end of the shoe',
      'The foot held as in the captured motion.',
      'The toes come forward',
      'take 4 weeks to come back to your usual hours',
      `SHA-256 of the record as signed: ${session.contentHash}`,
    ]) {
      expect(text.replaceAll(' ', '')).toContain(words.replaceAll(' ', ''));
    }
  });

  it('a heel-dropper for long steady rides: the saddle a little up, the advice the fitter’s own, and an amendment', async () => {
    const visitor = await receive({
      client: { givenName: 'Tomasz', familyName: 'Wierzba', email: 'tomasz@riders.example' },
      intake: nothingWrong,
      startsAt: '2089-01-10T11:00:00Z',
      bike: {
        name: 'Touring bike',
        kind: 'touring',
        crankLengthMm: 170,
        seatTubeAngleDeg: 72.5,
        uses: ['long_rides'],
      },
      shoe: { ...roadShoe, name: 'Touring shoes', holePattern: 'two_bolt' },
    });
    await putBaseline(visitor, { pain: 2, comfort: 61, numbness: false, power20MinW: null });
    const leg = { thigh_length: 420, shank_length: 412, foot_lever: 136, ankle_above_spindle: 118 };
    await measure(
      visitor,
      { ...leg, knee_flexion_straightest: 40, foot_pitch: -8, cleat_from_heel: 203 },
      'left',
      'right',
    );
    await measure(visitor, { inseam: 825 });
    const found: Schemas['PositionRequest'] = {
      ...{ saddleHeightMm: 716, saddleSetbackMm: 55, barReachMm: 505, barDropMm: 10 },
      ...{ cleatBehindMth1LeftMm: 8, cleatBehindMth1RightMm: 8, method: 'tape' },
    };
    await putPosition(visitor, 'found', found);
    await planAndChoose(
      visitor,
      { kind: 'saddle_height', side: 'right', added: { riderNow: { filmedIn: 'plane' } } },
      'inseam-0.883',
      'Between the rules, and the heel still drops freely.',
    );
    await changeOne(visitor, { what: 'saddleHeightMm', from: 716, to: 722 }, 'Half of the way first.', {
      comfort: 70,
      pains: [],
      remarks: 'Rounder.',
    });
    await putPosition(visitor, 'left', { ...found, saddleHeightMm: 722 });
    const [saddle] = await predictions(visitor);
    expect(saddle).toMatchObject({ kind: 'saddle_height', found: 716, left: 722 });
    expect(saddle?.predicted).toBeCloseTo(0.883 * 825, 6);

    const of = inSession(visitor).params.path;
    await dataOf(
      studio.owner.PUT('/v1/fit-sessions/{fitSessionId}/advice', {
        params: { path: of, header: { 'If-Match': '"1"' } },
        body: { items: ['Keep the first three rides under two hours, then add one hour a week.'] },
      }),
    );
    const { before, session } = await signed(visitor, { followUpPlanId: 'large-cleat-change' });
    expect(before).toMatchObject({ advice: { version: 2 }, followUpPlan: { id: 'small-change' } });
    expect(session.followUps).toHaveLength(4);
    await dataOf(
      studio.owner.POST('/v1/fit-sessions/{fitSessionId}/amendments', {
        ...inSession(visitor),
        body: { text: 'The tilt was read with the bike leaning: it is level.' },
      }),
    );
    const { text } = await sheetOf(visitor, { audience: 'rider', paper: 'letter' });
    for (const words of [
      'Tomasz Wierzba – Touring bike, Touring shoes',
      'Saddle height 716 mm 722 mm +6 mm',
      'Keep the first three rides under two hours, then add one hour a week.',
      'Next dates',
      'Owner: The tilt was read with the bike leaning: it is level.',
    ]) {
      expect(text).toContain(words);
    }
    expect(text).not.toContain('take 2 weeks');
    expect(text).not.toContain('SHA-256');
  });

  it('a time-triallist whose legs differ in length: a shim, and a sheet in German', async () => {
    const visitor = await receive({
      client: { givenName: 'Jule', familyName: 'Ahrens', email: 'jule@riders.example', language: 'de-AT' },
      intake: {
        ...nothingWrong,
        ...{ leg_lengths_differ: 'yes', leg_length_difference_mm: 8, leg_length_signs: [] },
      },
      startsAt: '2089-01-10T14:00:00Z',
      bike: {
        ...{ name: 'Zeitfahrrad', kind: 'time_trial', crankLengthMm: 165, seatTubeAngleDeg: 78 },
        uses: ['time_trial'],
      },
      shoe: { ...roadShoe, name: 'Rennschuhe' },
    });
    await putBaseline(visitor, { pain: 1, comfort: 70, numbness: false, power20MinW: 288 });
    const both = { thigh_length: 428, foot_lever: 138, ankle_above_spindle: 119, foot_pitch: 12 };
    const knee = { knee_flexion_straightest: 34, mth1_from_heel: 208, cleat_from_heel: 204 };
    await measure(visitor, { ...both, ...knee, shank_length: 424 }, 'left');
    await measure(visitor, { ...both, ...knee, shank_length: 416 }, 'right');
    const found: Schemas['PositionRequest'] = {
      ...{ saddleHeightMm: 742, saddleSetbackMm: -10, barReachMm: 560, barDropMm: 110 },
      ...{ cleatBehindMth1LeftMm: 4, cleatBehindMth1RightMm: 4, method: 'calliper' },
      ...{
        shimLeftMm: 0,
        shimRightMm: 0,
        hardwareLeft: ['three_bolt_cleat'],
        hardwareRight: ['three_bolt_cleat'],
      },
    };
    await putPosition(visitor, 'found', found);
    const plan = await planAndChoose(
      visitor,
      {
        kind: 'leg_length',
        added: {
          ...{ differenceMm: { value: 8, sd: 2 }, carriedBy: 'shank', nature: 'structural', staggerMm: 6 },
        },
      },
      'shim/between',
      'Structural, without complaint: part of it, one step.',
    );
    expect(plan.footPitchFrom.map(({ side, kind }) => [side, kind])).toEqual([
      ['left', 'measurement'],
      ['right', 'measurement'],
    ]);
    await changeOne(visitor, { what: 'shimRightMm', from: 0, to: 4 }, 'Half of the difference.', {
      comfort: 76,
      pains: [],
      remarks: 'Steht gerader.',
    });
    await putPosition(visitor, 'left', {
      ...found,
      shimRightMm: 4,
      hardwareRight: ['three_bolt_cleat', 'cleat_shim'],
    });
    const { before } = await signed(visitor);
    expect(before.advice).toMatchObject({ stage: 'cleats_kept', language: 'de' });

    const { text, page } = await sheetOf(visitor, { audience: 'rider', lengths: 'mm_and_inch' });
    expect(page).toContain('<html lang="de">');
    for (const words of [
      'Ihre Einstellung',
      'Jule Ahrens – Zeitfahrrad, Rennschuhe',
      'Sattelhöhe 742 mm (29,21 in) 742 mm (29,21 in) 0',
      'Unterlagen unter der Schuhplatte rechts 0 mm (0 in) 4 mm (0,16 in) +4 mm',
      'nehmen Sie sich 2 Wochen Zeit',
      'Nächste Termine',
    ]) {
      expect(text).toContain(words);
    }
  });
});

import { dataOf, openClient, type components } from '@studio/api-client';
import { healthy } from './healthy.js';
import { active, nothingNew, riders, type Rider } from './riders.js';
import type { Studio } from './studio.js';
import { holds, say } from './tell.js';
import { mailsOfWeek } from './weeks-later.js';

type Way = 'rear_plate_24' | 'arch_base_four_bolt';

interface OtherRider {
  readonly client: Rider['client'];
  readonly way: Way;
  readonly before: components['schemas']['BaselineRequest'];
  /** Null for somebody who does not answer. */
  readonly after: Omit<components['schemas']['FollowUpAnswersRequest'], 'answers'> | null;
}

/** Name, pain before and after, 20-minute power before and after. */
type Line = readonly [string, number, number | null, number, number | null];

const withRearPlate: readonly Line[] = [
  ['Lena', 6, 2, 205, 208],
  ['Kofi', 5, 3, 231, 229],
  ['Petra', 7, 3, 262, 265],
  ['Yusuf', 4, 2, 188, 190],
  ['Signe', 6, 4, 247, 244],
  ['Bruno', 8, 3, 219, 222],
  ['Ilse', 5, 2, 274, 271],
  ['Vera', 5, 2, 228, null],
];
// Their power went up and down by much, by the margin on average: however often told, nobody can be sure.
const atMidfoot: readonly Line[] = [
  ['Olga', 5, 3, 240, 218],
  ['Henrik', 6, 4, 210, 223],
  ['Amara', 4, 2, 255, 240],
  ['Greta', 5, 4, 270, 256],
  ['Anton', 6, 2, 200, 208],
  ['Luca', 5, 1, 250, 245],
  ['Frida', 6, null, 221, null],
];

const otherRiders: readonly OtherRider[] = [
  ...withRearPlate.map((line) => riderOf('rear_plate_24', line)),
  ...atMidfoot.map((line) => riderOf('arch_base_four_bolt', line)),
];
const atOnce = 4;

function riderOf(way: Way, [givenName, painBefore, painAfter, wattsBefore, wattsAfter]: Line): OtherRider {
  const comfortBefore = 90 - 8 * painBefore;
  return {
    client: {
      givenName,
      familyName: 'Moreau',
      email: `${givenName.toLowerCase()}@riders.example`,
      bornOn: '1985-04-01',
    },
    way,
    before: { pain: painBefore, comfort: comfortBefore, numbness: painBefore > 5, power20MinW: wattsBefore },
    after:
      painAfter === null
        ? null
        : { pain: painAfter, comfort: 90 - 8 * painAfter, numbness: false, power20MinW: wattsAfter },
  };
}

/** Riders of the same weeks, each taken on, fitted and signed as the others, told of only in sum. */
export async function fitOthers(studio: Studio): Promise<void> {
  const waiting = [...otherRiders];
  const takeNext = async (): Promise<void> => {
    for (let rider = waiting.shift(); rider !== undefined; rider = waiting.shift())
      await fitOne(studio, rider);
  };
  await Promise.all(Array.from({ length: atOnce }, takeNext));
  say(
    `${otherRiders.length} more riders come in these days: ${withRearPlate.length} get a rear plate, ${atMidfoot.length} go to midfoot.`,
  );
}

async function fitOne({ desk, fitter }: Studio, { client, way, before }: OtherRider): Promise<void> {
  const like = riders.find(({ decision }) => decision.way === way);
  holds('somebody of the story rides with that', like !== undefined);
  const { id: clientId } = await dataOf(desk.POST('/v1/clients', { body: client }));
  const of = { params: { path: { clientId } } };
  for (const kind of ['data', 'health_data', 'contact'] as const) {
    await dataOf(
      desk.POST('/v1/clients/{clientId}/consents', { ...of, body: { kind, textVersion: '2026-01' } }),
    );
  }
  await dataOf(
    desk.POST('/v1/clients/{clientId}/screenings', {
      ...of,
      body: {
        questionSetId: 'rider-intake',
        questionSetVersion: '2',
        answers: { ...healthy, ...active, age_years: 40 },
      },
    }),
  );
  const bike = await dataOf(fitter.POST('/v1/clients/{clientId}/bikes', { ...of, body: like.bike }));
  const shoe = await dataOf(fitter.POST('/v1/clients/{clientId}/shoes', { ...of, body: like.shoe }));
  const { id: fitSessionId } = await dataOf(
    fitter.POST('/v1/fit-sessions', { body: { clientId, bikeId: bike.id, shoeId: shoe.id } }),
  );
  const session = { params: { path: { fitSessionId } } };
  await dataOf(fitter.PUT('/v1/fit-sessions/{fitSessionId}/baseline', { ...session, body: before }));
  for (const measurement of like.measured) {
    await dataOf(
      fitter.POST('/v1/fit-sessions/{fitSessionId}/measurements', {
        ...session,
        body: { ...measurement, side: 'left' },
      }),
    );
  }
  const plan = await dataOf(
    fitter.POST('/v1/fit-sessions/{fitSessionId}/cleat-plans', { ...session, body: { side: 'left' } }),
  );
  await dataOf(
    fitter.POST('/v1/cleat-plans/{cleatPlanId}/choice', {
      params: { path: { cleatPlanId: plan.id } },
      body: { way, because: 'As talked over.' },
    }),
  );
  const chosen = plan.options.find((option) => option.way === way);
  holds('the chosen option is in the plan', chosen !== undefined);
  const left = {
    ...like.found,
    saddleHeightMm: like.found.saddleHeightMm + Math.round(chosen.expectedSaddleHeightChangeMm),
    cleatBehindMth1LeftMm: chosen.behindMth1Mm,
    cleatBehindMth1RightMm: chosen.behindMth1Mm,
  };
  for (const [stage, body] of [['found', like.found] as const, ['left', left] as const]) {
    const path = { fitSessionId, stage };
    await dataOf(fitter.PUT('/v1/fit-sessions/{fitSessionId}/positions/{stage}', { params: { path }, body }));
  }
  await dataOf(fitter.POST('/v1/fit-sessions/{fitSessionId}/sign-off', session));
}

/** Two weeks on, each answers by the link of the mail, all but one. */
export async function othersAnswer(apiUrl: string, mailUrl: string): Promise<void> {
  const mails = await mailsOfWeek(mailUrl, 2, otherRiders);
  const open = openClient(apiUrl);
  const answering = otherRiders.flatMap(({ client, after }) => (after === null ? [] : [{ client, after }]));
  for (const { client, after } of answering) {
    const link = /follow-up\/(?<link>\S+)/.exec(mails.get(client.email)?.text ?? '')?.groups?.['link'];
    holds('the mail holds a link', link !== undefined);
    const body = { ...after, answers: nothingNew };
    await dataOf(open.POST('/v1/follow-up-links/{link}/answers', { params: { path: { link } }, body }));
  }
  say(`Of the ${otherRiders.length} others, ${answering.length} answer.`);
}

/** One review that is sure of something, and one that is not and says so. */
export async function sureAndUnsure({ owner }: Studio): Promise<void> {
  const power = (query: { intervention?: 'midfoot'; cleatBackFromMm?: number; cleatBackBelowMm?: number }) =>
    dataOf(owner.GET('/v1/outcomes/power', { params: { query } }));
  const giveUpAt = Date.now() + 60_000;
  const answered = otherRiders.filter(({ after }) => after !== null).length;
  for (;;) {
    const query = { intervention: 'cleat_back' } as const;
    const review = await dataOf(owner.GET('/v1/outcomes/review', { params: { query } }));
    const pain = review.measures.find(({ measure }) => measure === 'pain');
    if (review.answered >= answered && pain?.interval95) {
      holds('it is sure that pain fell', pain.interval95.high < 0 && (pain.test?.correctedP ?? 1) < 0.001);
      say(`Pain of ${review.group}: ${pain.sentence} ${pain.responders?.sentence ?? ''}`);
      break;
    }
    holds('the others are summed up within a minute', Date.now() < giveUpAt);
    await new Promise((resolve) => setTimeout(resolve, 250));
  }
  const [plate, midfoot] = [
    await power({ cleatBackFromMm: 10, cleatBackBelowMm: 40 }),
    await power({ intervention: 'midfoot' }),
  ];
  holds('of the rear plates it is sure that no power was lost', plate.verdict === 'not worse');
  holds('of midfoot it is not, and says so', midfoot.verdict === 'not shown');
  for (const { question, answer } of [plate, midfoot]) say(`${question} ${answer}`);
}

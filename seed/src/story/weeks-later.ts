import { dataOf, openClient, type StudioClient } from '@studio/api-client';
import type { Rider } from './riders.js';
import { refused, type Studio } from './studio.js';
import { holds, say } from './tell.js';

const dayS = 86_400;

/** Let days pass on the test clock. */
export async function daysPass(owner: StudioClient, days: number): Promise<Date> {
  const { now } = await dataOf(owner.POST('/v1/test-clock/advance', { body: { seconds: days * dayS } }));
  return new Date(now);
}

/** Let days pass, on to the late morning: clients are not written to at night. */
export async function daysPassToMorning(owner: StudioClient, days: number): Promise<void> {
  const now = await daysPass(owner, days);
  // By the clock of a studio in Central Europe, summer and winter.
  const lateMorningS = 10.5 * 3_600;
  const ofTheDayS = (now.getTime() / 1000) % dayS;
  const seconds = Math.ceil((lateMorningS - ofTheDayS + dayS) % dayS) + 1;
  await dataOf(owner.POST('/v1/test-clock/advance', { body: { seconds } }));
}

interface CaughtMail {
  readonly to: string;
  readonly subject: string;
  readonly text: string;
  readonly date: string;
}

/** Follow-ups of the story's riders, in the order they are asked. */
const weeks = [2, 6];

/** Wait for the worker's mails about one week, one to each rider. */
export async function mailsOfWeek(
  mailUrl: string,
  week: number,
  riders: readonly Pick<Rider, 'client'>[],
): Promise<Map<string, CaughtMail>> {
  const giveUpAt = Date.now() + 60_000;
  for (;;) {
    const caught = (await (await fetch(`${mailUrl}/messages`)).json()) as CaughtMail[];
    const asking = caught.filter(({ subject }) => subject === 'How is your new position?');
    const mails = new Map(
      riders.flatMap(({ client: { email } }) => {
        const mail = asking.filter(({ to }) => to.includes(email))[weeks.indexOf(week)];
        return mail ? [[email, mail] as const] : [];
      }),
    );
    if (mails.size === riders.length) return mails;
    holds(`the mails of week ${week} arrive within a minute`, Date.now() < giveUpAt);
    await new Promise((resolve) => setTimeout(resolve, 250));
  }
}

/** Each rider who answers does so by the link of the mail, without an account. */
export async function answerMails(
  apiUrl: string,
  week: 2 | 6,
  riders: readonly Rider[],
  mails: ReadonlyMap<string, { text: string }>,
): Promise<void> {
  const open = openClient(apiUrl);
  for (const { client, answers } of riders) {
    const body = answers[week];
    if (!body) {
      say(`${client.givenName} does not answer; that is counted, not forgotten.`);
      continue;
    }
    const link = /follow-up\/(?<link>\S+)/.exec(mails.get(client.email)?.text ?? '')?.groups?.['link'];
    holds('the mail holds a link', link !== undefined);
    const path = { link };
    const asked = await dataOf(open.GET('/v1/follow-up-links/{link}', { params: { path } }));
    const { advice } = await dataOf(
      open.POST('/v1/follow-up-links/{link}/answers', { params: { path }, body }),
    );
    const spent = await refused(
      dataOf(open.POST('/v1/follow-up-links/{link}/answers', { params: { path }, body })),
    );
    holds('a link works once', spent.status === 410 && asked.week === week);
    say(
      `${client.givenName} answers: pain ${body.pain ?? '–'} of 10, comfort ${body.comfort ?? '–'} of 100.`,
    );
    for (const sentence of advice)
      say(`  The answers are screened again, and ${client.givenName} reads at once: ${sentence}`);
  }
}

/** Wait for the worker's summaries, then tell the owner's review. */
export async function review(
  { owner }: Studio,
  fitSessionIds: readonly string[],
  answered: number,
): Promise<void> {
  const giveUpAt = Date.now() + 60_000;
  for (;;) {
    const outcomes = await Promise.all(
      fitSessionIds.map((fitSessionId) =>
        owner.GET('/v1/fit-sessions/{fitSessionId}/outcome', { params: { path: { fitSessionId } } }),
      ),
    );
    const known = outcomes.flatMap(({ data }) => (data ? [data] : []));
    if (known.length === answered && known.every(({ power20MinAfterW }) => power20MinAfterW !== null)) {
      for (const { saddleChangePredictedMm, saddleChangeLeftMm } of known) {
        say(
          `Saddle predicted ${saddleChangePredictedMm?.toFixed(1) ?? '–'} mm, left ${saddleChangeLeftMm?.toFixed(1) ?? '–'} mm.`,
        );
      }
      break;
    }
    holds('the outcomes are summed up within a minute', Date.now() < giveUpAt);
    await new Promise((resolve) => setTimeout(resolve, 250));
  }
  const total = await dataOf(owner.GET('/v1/outcomes/review'));
  say(`${total.sessions} sessions reviewed: ${total.answered} answered, ${total.missing} missing.`);
  for (const { measure, sentence } of total.measures) say(`${measure.replaceAll('_', ' ')}: ${sentence}`);
  const { gone, appeared, stayed, never } = total.numbness;
  say(`Numb feet: gone in ${gone}, stayed in ${stayed}, new in ${appeared}, never in ${never}.`);
}

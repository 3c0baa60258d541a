import { takeOn } from './story/at-the-desk.js';
import { payFor } from './story/at-the-till.js';
import { handOverSheet } from './story/hand-over.js';
import { fit } from './story/on-the-bike.js';
import { fitOthers, othersAnswer, sureAndUnsure } from './story/other-riders.js';
import { nothingForgotten } from './story/promised.js';
import { riders } from './story/riders.js';
import { setUpSecondBike } from './story/second-bike.js';
import { workOnSoles } from './story/soles.js';
import { openForTheDay } from './story/studio.js';
import { chapter, say } from './story/tell.js';
import { toldByMail } from './story/told-by-mail.js';
import { whoSeesWhat } from './story/who-sees-what.js';
import { answerMails, daysPass, daysPassToMorning, mailsOfWeek, review } from './story/weeks-later.js';

/** Plays the studio's whole job through the API. Every promise is checked; the first that fails ends it. */
async function play(apiUrl: string, mailUrl: string | undefined): Promise<void> {
  chapter('The studio opens');
  const studio = await openForTheDay(apiUrl);

  chapter('At the front desk');
  const today = await daysPass(studio.owner, 1);
  const visits = [];
  for (const [index, rider] of riders.entries()) {
    const startsAt = new Date(today);
    startsAt.setUTCDate(startsAt.getUTCDate() + 1);
    startsAt.setUTCHours(7 + 3 * index, 0, 0, 0);
    visits.push(await takeOn(studio, rider, startsAt));
  }
  if (mailUrl !== undefined) await toldByMail(studio, visits, mailUrl);

  chapter('In the fit bay');
  await daysPass(studio.owner, 1);
  const fitSessionIds = [];
  for (const visit of visits) fitSessionIds.push(await fit(studio, visit));
  await handOverSheet(studio, fitSessionIds[0] ?? '');
  if (visits[0]) await setUpSecondBike(studio, visits[0], fitSessionIds[0] ?? '');
  await workOnSoles(studio, fitSessionIds[0] ?? '');
  await fitOthers(studio);
  if (visits[0]) await payFor(studio, visits[0]);

  if (mailUrl === undefined) {
    say('Mail goes to your own server, so the story ends here; the follow-ups go out when they are due.');
    return;
  }
  for (const week of [2, 6] as const) {
    chapter(`${week} weeks after the fit`);
    await daysPassToMorning(studio.owner, week === 2 ? 15 : 28);
    const mails = await mailsOfWeek(mailUrl, week, riders);
    say(`${mails.size} mails went out, each with a link of its own.`);
    await answerMails(apiUrl, week, riders, mails);
    if (week === 2) await othersAnswer(apiUrl, mailUrl);
  }

  chapter('What the owner can say');
  await review(studio, fitSessionIds, riders.filter(({ answers }) => Object.keys(answers).length > 0).length);
  await sureAndUnsure(studio);
  if (visits[0]) await whoSeesWhat(apiUrl, studio, visits[0].clientId);
  await nothingForgotten(studio.owner);
}

const { API_URL, MAIL_URL } = process.env;
if (API_URL === undefined) {
  process.stderr.write('API_URL: is missing\n');
  process.exit(1);
}
try {
  await play(API_URL, MAIL_URL);
  process.stdout.write('\nEvery step held.\n');
} catch (error) {
  process.stderr.write(`\nThe story broke off: ${error instanceof Error ? error.message : String(error)}\n`);
  process.exit(1);
}

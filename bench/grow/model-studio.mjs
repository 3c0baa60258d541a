// Ten clients of one studio, each taken on, booked, screened, fitted, paid for and asked how it went, all through the API:
// what they leave behind is what a visit's rows are. Needs API_URL and MAIL_URL, a worker and the first studio.
import { dataOf, openClient } from '@studio/api-client';
import { takeOn } from '../../seed/dist/story/at-the-desk.js';
import { payFor } from '../../seed/dist/story/at-the-till.js';
import { handOverSheet } from '../../seed/dist/story/hand-over.js';
import { fit } from '../../seed/dist/story/on-the-bike.js';
import { nothingNew, riders } from '../../seed/dist/story/riders.js';
import { openForTheDay } from '../../seed/dist/story/studio.js';
import { daysPass, daysPassToMorning, mailsOfWeek } from '../../seed/dist/story/weeks-later.js';

const { API_URL: apiUrl = '', MAIL_URL: mailUrl = '' } = process.env;
const clients = 10;
/** One in five never answers. */
const answering = 8;

const own = Array.from({ length: clients }, (_, index) => {
  const like = riders[index % riders.length];
  if (!like) throw new Error('the story has riders');
  return { ...like, client: { ...like.client, email: `rider-${index}@riders.example` } };
});

const studio = await openForTheDay(apiUrl);
const tomorrow = await daysPass(studio.owner, 1);
tomorrow.setUTCDate(tomorrow.getUTCDate() + 1);
const visits = [];
for (const [index, rider] of own.entries()) {
  const startsAt = new Date(tomorrow);
  // One after another within a day, so that a visit a day later meets none of them.
  startsAt.setUTCHours(2 * index, 0, 0, 0);
  visits.push(await takeOn(studio, rider, startsAt));
}
await daysPass(studio.owner, 1);
for (const visit of visits) {
  const fitSessionId = await fit(studio, visit);
  await handOverSheet(studio, fitSessionId);
  await payFor(studio, visit);
  const of = { params: { path: { clientId: visit.clientId } } };
  await dataOf(
    studio.desk.POST('/v1/clients/{clientId}/notes', { ...of, body: { text: 'Prefers mornings.' } }),
  );
}
await dataOf(
  studio.owner.POST('/v1/weekly-hours', {
    body: { weekdays: [1, 2, 3, 4, 5, 6, 7], from: '08:00', until: '18:00', validFrom: '2026-01-01' },
  }),
);

for (const week of [2, 6]) {
  await daysPassToMorning(studio.owner, week === 2 ? 15 : 28);
  const mails = await mailsOfWeek(mailUrl, week, own);
  for (const [index, { client }] of own.slice(0, answering).entries()) {
    const link = /follow-up\/(?<link>\S+)/.exec(mails.get(client.email)?.text ?? '')?.groups?.['link'];
    if (link === undefined) throw new Error('the mail holds a link');
    const body = { pain: 1 + (index % 4), comfort: 60 + 3 * index, numbness: false, answers: nothingNew };
    await dataOf(
      openClient(apiUrl).POST('/v1/follow-up-links/{link}/answers', { params: { path: { link } }, body }),
    );
  }
}

import { dataOf } from '@studio/api-client';
import type { Booked } from './at-the-desk.js';
import type { Studio } from './studio.js';
import { holds, say } from './tell.js';

interface CaughtMail {
  readonly subject: string;
  readonly calendar: string | null;
}

/** Whoever is booked is told by mail, with an invitation; the fitter's own calendar shows the same visits. */
export async function toldByMail(studio: Studio, visits: readonly Booked[], mailUrl: string): Promise<void> {
  const { owner, fitter } = studio;
  const giveUpAt = Date.now() + 60_000;
  let confirmed: CaughtMail[] = [];
  while (confirmed.length < visits.length) {
    const caught = (await (await fetch(`${mailUrl}/messages`)).json()) as CaughtMail[];
    confirmed = visits.flatMap(
      ({ appointmentId }) => caught.find(({ calendar }) => calendar?.includes(appointmentId)) ?? [],
    );
    holds('every booking is confirmed by mail within a minute', Date.now() < giveUpAt);
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  say(`Each has a mail with an invitation for the calendar: “${confirmed[0]?.subject ?? ''}”`);

  const fitterId = fitter.signedIn.id;
  const feed = await dataOf(owner.POST('/v1/calendar-feeds', { body: { fitterId } }));
  const shown = await (await fetch(feed.address)).text();
  holds(
    'the fitter’s calendar shows every visit',
    visits.every(({ appointmentId }) => shown.includes(appointmentId)),
  );
  holds('and no client’s name', !shown.includes(visits[0]?.rider.client.familyName ?? 'no client'));
  say('The fitter’s calendar program reads the same visits at a secret address, with initials for names.');
}

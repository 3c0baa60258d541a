import type { OfferState } from '@studio/database';
import { html, type Html } from '@studio/documents';
import { layout } from '../intake-pages/index.js';
import type { ShownOffer } from './waiting-list.queries.js';

/** Day and time as they are said at the place, whose clock they are by. */
function inWords(instant: Date, timeZone: string): string {
  return new Intl.DateTimeFormat('en-GB', { dateStyle: 'full', timeStyle: 'short', timeZone }).format(
    instant,
  );
}

/** `base` is the address of the link, without a slash at its end. */
export function offerPage(offer: ShownOffer, base: string): Html {
  const { studio, service, fitter, site, startsAt, expiresAt, timeZone } = offer;
  const title = 'A time came free for you';
  const rows = [
    ['What', service],
    ['When', inWords(startsAt, timeZone)],
    ['With', fitter],
    ...(site === null ? [] : [['Where', site]]),
  ];
  return layout({
    title,
    studio,
    body: html`<h1>${title}</h1>
      <dl>
        ${rows.map(
          ([name, value]) =>
            html`<div>
              <dt>${name ?? ''}</dt>
              <dd>${value ?? ''}</dd>
            </div>`,
        )}
      </dl>
      <p>${studio} keeps it for you until ${inWords(expiresAt, timeZone)}. After that the next is asked.</p>
      <form method="post" action="${base}/acceptance">
        <button type="submit">Take this time</button>
      </form>
      <form method="post" action="${base}/refusal">
        <button type="submit" class="second">Not this time, keep me on the list</button>
      </form>`,
  });
}

export function answeredPage({ studio, service, startsAt, timeZone }: ShownOffer, accepted: boolean): Html {
  const title = accepted ? 'The time is yours' : 'You stay on the list';
  return layout({
    title,
    studio,
    body: html`<h1>${title}</h1>
      <p>
        ${
          accepted
            ? `${service}, ${inWords(startsAt, timeZone)}. If you cannot come after all, please tell the studio.`
            : `The time goes to the next. ${studio} tells you when another one comes free.`
        }
      </p>
      <p>You can close this page. The link is used up.</p>`,
  });
}

/** What became of an offer that is not open any more, as the client is told it. */
export const closedWords: Readonly<
  Record<Exclude<OfferState, 'open'>, readonly [title: string, now: string]>
> = {
  accepted: ['This time was taken already', 'If that was not you, please call the studio.'],
  declined: [
    'You said no to this time',
    'You are still on the list. Please call the studio if that was a slip.',
  ],
  expired: [
    'This offer has run out',
    'The time went to the next. Please call the studio if you still wait for one.',
  ],
  withdrawn: ['This time is not free any more', 'Please call the studio if you still wait for one.'],
};

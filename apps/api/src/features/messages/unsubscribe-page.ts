import type { Language } from '@studio/messages';
import { html, type Html } from '@studio/documents';
import { styleElement } from '../intake-pages/index.js';

/** Whose mails, in the language they were written in. */
export interface Subscription {
  readonly studioName: string;
  readonly language: Language;
}

const words = {
  en: {
    skip: 'Skip to the page',
    ask: 'No more mails?',
    about: (studio: string) =>
      `${studio} will send you no more mails: no reminders, no offers, no questions after a fit, and no confirmations either.`,
    stays: 'Your appointments stay as they are. The studio may still call you about them.',
    stop: 'Send me no more mails',
    done: 'You get no more mails',
    since: (studio: string) => `${studio} sends you none from now on. Your appointments stay as they are.`,
    again: 'If you want mails again, tell the studio.',
  },
  de: {
    skip: 'Zum Inhalt',
    ask: 'Keine Mails mehr?',
    about: (studio: string) =>
      `${studio} schickt Ihnen dann keine Mails mehr: keine Erinnerungen, keine Angebote, keine Fragen nach einem Termin und auch keine Bestätigungen.`,
    stays: 'Ihre Termine bleiben bestehen. Das Studio kann Sie ihretwegen noch anrufen.',
    stop: 'Keine Mails mehr schicken',
    done: 'Sie bekommen keine Mails mehr',
    since: (studio: string) => `${studio} schickt Ihnen ab jetzt keine mehr. Ihre Termine bleiben bestehen.`,
    again: 'Wenn Sie wieder Mails möchten, sagen Sie dem Studio Bescheid.',
  },
} as const satisfies Record<Language, object>;

/** Asks before anything is changed. */
export function askPage({ studioName, language }: Subscription, action: string): Html {
  const { ask, about, stays, stop } = words[language];
  return page(
    language,
    ask,
    studioName,
    html`<p>${about(studioName)}</p>
      <p>${stays}</p>
      <form method="post" action="${action}">
        <button>${stop}</button>
      </form>`,
  );
}

export function donePage({ studioName, language }: Subscription): Html {
  const { done, since, again } = words[language];
  return page(
    language,
    done,
    studioName,
    html`<p>${since(studioName)}</p>
      <p>${again}</p>`,
  );
}

export const unknownPage = (): Html =>
  page(
    'en',
    'We do not know this link',
    null,
    html`<p>
      Perhaps a part of it was cut off: try the whole link from your mail, or tell the studio that you want no
      more mails.
    </p>`,
  );

export const failedPage = (): Html =>
  page(
    'en',
    'Something failed on our side',
    null,
    html`<p>Please try again in a few minutes, or tell the studio that you want no more mails.</p>`,
  );

function page(language: Language, title: string, studioName: string | null, body: Html): Html {
  return html`<!doctype html>
    <html lang="${language}">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="robots" content="noindex, nofollow" />
        <title>${title}${studioName === null ? '' : ` – ${studioName}`}</title>
        ${styleElement}
      </head>
      <body>
        <a class="skip" href="#main">${words[language].skip}</a>
        ${studioName !== null && html`<header><p>${studioName}</p></header>`}
        <main id="main">
          <h1>${title}</h1>
          ${body}
        </main>
      </body>
    </html> `;
}

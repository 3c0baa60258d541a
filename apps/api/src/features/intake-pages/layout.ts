import { html, type Html } from '@studio/documents';
import { styleElement } from './style.js';

/** A whole page. `studio` is absent where a link names none that could be shown. */
export function layout(options: { title: string; studio?: string; body: Html; forStaff?: boolean }): Html {
  const { title, studio, body, forStaff = false } = options;
  return html`<!doctype html>
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="robots" content="noindex, nofollow" />
        <title>${title}${studio === undefined ? '' : ` – ${studio}`}</title>
        ${styleElement}
      </head>
      <body>
        <a class="skip" href="#main">Skip to the page</a>
        ${studio !== undefined && html`<header><p>${studio}</p></header>`}
        <main id="main">${body}</main>
        ${
          !forStaff &&
          html`<footer>
            <p>If you feel seriously ill now, do not go on here: call your local emergency number.</p>
          </footer>`
        }
      </body>
    </html> `;
}

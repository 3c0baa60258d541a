import { html, type Html } from '@studio/documents';
import type { PersonCopy } from './person-copy.js';

/** The copy to be read by a person: every table under its heading, every row as a list of what it says. */
export function copyPage(
  { studio, madeAt, processing, files }: PersonCopy,
  tables: readonly PageTable[],
): string {
  const shown = tables.filter(({ records }) => records.length > 0);
  return html`<!doctype html>
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width" />
        <title>Everything we keep about you</title>
        <style>
          body {
            font:
              1rem/1.5 system-ui,
              sans-serif;
            max-width: 46rem;
            margin: 2rem auto;
            padding: 0 1rem;
            color: #17222d;
          }
          h2 {
            margin-top: 2.5rem;
            border-bottom: 1px solid #bcc6cd;
          }
          article {
            margin: 1rem 0;
            padding: 0.75rem 1rem;
            border: 1px solid #d5dce1;
            border-radius: 4px;
          }
          dl {
            display: grid;
            grid-template-columns: minmax(8rem, 14rem) 1fr;
            gap: 0.15rem 1rem;
            margin: 0;
          }
          dt {
            color: #4d5a65;
          }
          dd {
            margin: 0;
            overflow-wrap: anywhere;
          }
          ul {
            margin: 0;
            padding-left: 1.2rem;
          }
        </style>
      </head>
      <body>
        <h1>Everything we keep about you</h1>
        <p>
          ${studio}, ${shownText(madeAt)}. The same as data for other programs is in
          <a href="data.json">data.json</a>.
        </p>
        ${
          files.length > 0
            ? html`<h2>Photos and documents</h2>
                <ul>
                  ${files.map(({ path }) => html`<li><a href="${path}">${path}</a></li>`)}
                </ul>`
            : ''
        }
        ${shown.map(
          ({ title, records }) =>
            html`<h2>${title}</h2>
              ${records.map((record) => html`<article>${listOf(record)}</article>`)}`,
        )}
        <h2>What we do with it</h2>
        ${processing.map((activity) => html`<article>${listOf({ ...activity })}</article>`)}
        <p>
          You may have it corrected, erased or only kept, take consent back at any time, and complain to the
          data protection authority.
        </p>
      </body>
    </html>`.text;
}

interface PageTable {
  readonly title: string;
  readonly records: readonly Readonly<Record<string, unknown>>[];
}

/** Ids lead nowhere outside, and what is empty says nothing. */
const says = (name: string, value: unknown): boolean =>
  !(/(^i|I)d$/.test(name) || value === null || value === '' || name === 'version');

function listOf(record: Readonly<Record<string, unknown>>): Html {
  return html`<dl>
    ${Object.entries(record)
      .filter(([name, value]) => says(name, value))
      .map(
        ([name, value]) =>
          html`<dt>${inWords(name)}</dt>
            <dd>${shownValue(value)}</dd>`,
      )}
  </dl>`;
}

function shownValue(value: unknown): Html | string {
  if (Array.isArray(value)) {
    if (value.length === 0) return '–';
    return html`<ul>
      ${value.map((item) => html`<li>${shownValue(item)}</li>`)}
    </ul>`;
  }
  if (typeof value === 'object' && value !== null) return listOf(value as Record<string, unknown>);
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return shownText(String(value));
}

/** Instants, and the times between two of them, as people write them. */
function shownText(text: string): string {
  const between = /^\["(?<from>[^"]+)","(?<to>[^"]+)"\)$/.exec(text)?.groups as
    | { from: string; to: string }
    | undefined;
  return between ? `${shownInstant(between.from)} to ${shownInstant(between.to)}` : shownInstant(text);
}

/** Without what is finer than minutes. */
const shownInstant = (text: string): string =>
  text.replace(/^(\d{4}-\d{2}-\d{2})[T ](\d{2}:\d{2}):\d{2}[\d.]*(\+00(:00)?|Z)$/, '$1 $2 UTC');

const inWords = (name: string): string => {
  const words = name.replace(/_/g, ' ').replace(/([A-Z]|\d+)/g, (part) => ` ${part.toLowerCase()}`);
  return words.charAt(0).toUpperCase() + words.slice(1);
};

import { Html, html } from '@studio/documents';
import type { Block, Sheet } from './sheet.js';

const style = `
:root { color-scheme: light; --ink: #17222d; --soft: #4d5a65; --line: #bcc6cd; }
* { box-sizing: border-box; }
body { margin: 0; color: var(--ink); background: #fff; font: 1rem/1.5 system-ui, sans-serif; }
header, main { max-width: 44rem; margin: 0 auto; padding: 1rem; }
header p { margin: 0; color: var(--soft); }
h1 { font-size: 1.7rem; line-height: 1.2; margin: 0.25rem 0 0.75rem; }
h2 { font-size: 1.2rem; margin: 2rem 0 0.5rem; break-after: avoid; }
.scrolls { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; }
th, td { text-align: left; padding: 0.3rem 0.75rem 0.3rem 0; border-bottom: 1px solid var(--line); }
tbody th { font-weight: 400; }
figure { margin: 1.5rem 0; break-inside: avoid; }
figure svg { width: 100%; height: auto; }
p, li { overflow-wrap: anywhere; }
`;

/** The sheet as a page of its own: nothing is loaded, nothing runs. */
export function fitSheetPage({ language, title, from, about, sections, labels }: Sheet): string {
  return html`<!doctype html>
    <html lang="${language}">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <title>${title}: ${about[0] ?? ''}</title>
        <style>
          ${new Html(style)}
        </style>
      </head>
      <body>
        <header>
          <p>${from}</p>
        </header>
        <main>
          <h1>${title}</h1>
          ${about.map((line) => html`<p>${line}</p>`)}
          ${sections.map(
            ({ heading, blocks }) =>
              html`<section>
                <h2>${heading}</h2>
                ${blocks.map((block) => blockHtml(block, labels))}
              </section>`,
          )}
        </main>
      </body>
    </html>`.text;
}

function blockHtml(block: Block, labels: Sheet['labels']): Html {
  switch (block.kind) {
    case 'paragraph':
      return html`<p>${block.text}</p>`;
    case 'list':
      return html`<ul>
        ${block.items.map((item) => html`<li>${item}</li>`)}
      </ul>`;
    case 'table':
      return html`<div class="scrolls" tabindex="0" role="group" aria-label="${labels.table}">
        <table>
          <thead>
            <tr>
              ${block.columns.map((name) => (name === '' ? html`<td></td>` : html`<th scope="col">${name}</th>`))}
            </tr>
          </thead>
          <tbody>
            ${block.rows.map(
              ([name = '', ...cells]) =>
                html`<tr>
                  <th scope="row">${name}</th>
                  ${cells.map((cell) => html`<td>${cell}</td>`)}
                </tr>`,
            )}
          </tbody>
        </table>
      </div>`;
    case 'figure':
      // The drawing escapes what it writes.
      return html`<figure>${new Html(withoutSize(block.drawing.svg))}</figure>`;
  }
}

/** Without a size of its own it takes the width of the page. */
const withoutSize = (svg: string): string => svg.replace(/ width="\d+" height="\d+"/, '');

import { escapeHtml } from '@studio/documents';
import { localTime } from '@studio/opening-hours';
import { createHash } from 'node:crypto';
import type { DaySheetResponse, SheetVisitResponse } from './day-sheet.dto.js';

const style = `
  @page { size: A4 landscape; margin: 12mm }
  body { font: 11pt/1.35 system-ui, sans-serif; color: #111; background: #fff; margin: 1rem }
  h1 { font-size: 16pt; margin: 0 0 .5rem } h2 { font-size: 12pt; margin: 1rem 0 .25rem }
  table { border-collapse: collapse; width: 100% }
  th, td { text-align: left; vertical-align: top; padding: .2rem .4rem; border-bottom: 1px solid #888; overflow-wrap: anywhere }
  tr { break-inside: avoid } thead { display: table-header-group }
`;

/** Nothing is loaded, and only this style is applied. */
export const daySheetPagePolicy = `default-src 'none'; style-src 'sha256-${createHash('sha256')
  .update(style)
  .digest('base64')}'; frame-ancestors 'none'`;

/** The day sheet as a plain page to print: by fitter, then by room, then the benches. */
export function daySheetPage(sheet: DaySheetResponse): string {
  const { day, studio, timeZone, fitters, rooms, benches, openTasks } = sheet;
  const visits = new Map(sheet.visits.map((visit) => [visit.appointmentId, visit]));
  const section = (
    what: string,
    { name, appointmentIds }: { name: string; appointmentIds: readonly string[] },
    where: (visit: SheetVisitResponse) => string,
  ): string => {
    const rows = appointmentIds.flatMap((id) => visits.get(id) ?? []);
    if (rows.length === 0) return `<h2>${escapeHtml(name)}</h2><p>No visit.</p>`;
    const head = ['Time', 'Client', 'Service', what, 'State', 'Intake', 'Permission', 'To do'];
    return `<h2>${escapeHtml(name)}</h2>${table(
      head,
      rows.map((visit) => [
        `${clock(visit.localStart)}–${clock(visit.localEnd)}`,
        [visit.client.name, visit.client.phone].filter((part) => part !== null).join(', '),
        visit.service.name,
        where(visit),
        words(visit.state),
        visit.intake,
        words(visit.permission),
        visit.tasks.map(words).join(', '),
      ]),
    )}`;
  };
  return `<!doctype html>
<html lang="en">
<head><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>${escapeHtml(`${day}, ${studio}`)}</title><style>${style}</style></head>
<body><main>
<h1>${escapeHtml(studio)}, ${escapeHtml(day)} <small>(${escapeHtml(timeZone)})</small></h1>
${fitters.map((fitter) => section('Room', fitter, ({ room }) => room.name)).join('\n')}
${rooms.map((room) => section('Fitter', room, ({ fitter }) => fitter.name)).join('\n')}
<h2>To be seen to</h2>
${
  openTasks.length === 0
    ? '<p>Nothing is open.</p>'
    : table(
        ['What', 'Client', 'Due'],
        openTasks.map(({ kind, client, dueAt }) => [
          words(kind),
          [client?.name, client?.phone].filter((part) => part != null).join(', '),
          due(dueAt, timeZone),
        ]),
      )
}
<h2>Benches</h2>
${
  benches.length === 0
    ? '<p>Nothing cures.</p>'
    : table(
        ['Bench', 'Client', 'Ready'],
        benches.map(({ bench, clientName, localReady }) => [
          bench.name,
          clientName,
          `${localReady.slice(0, 10)} ${clock(localReady)}`,
        ]),
      )
}
</main></body></html>
`;
}

function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const cells = (tag: string, texts: readonly string[]): string =>
    texts.map((text) => `<${tag}>${escapeHtml(text)}</${tag.slice(0, 2)}>`).join('');
  return `<table><thead><tr>${cells('th scope="col"', head)}</tr></thead><tbody>${rows
    .map((row) => `<tr>${cells('td', row)}</tr>`)
    .join('')}</tbody></table>`;
}

const due = (instant: string, timeZone: string): string => {
  const local = localTime(Date.parse(instant), timeZone);
  return `${local.slice(0, 10)} ${clock(local)}`;
};
const clock = (local: string): string => local.slice(11, 16);
const words = (name: string): string => name.replaceAll('_', ' ');

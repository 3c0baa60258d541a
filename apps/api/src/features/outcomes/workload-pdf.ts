import {
  collected,
  grey,
  heading,
  ink,
  margin,
  newDocument,
  numberPages,
  paragraph,
  tagged,
  type Document,
} from './pdf-blocks.js';
import { fewestShown } from './small-cells.js';
import { workloadRows, type WorkloadRow } from './workload-table.js';
import type { WorkloadResponse } from './workload.dto.js';

const sections: readonly (readonly [WorkloadRow['section'], string])[] = [
  ['visits', 'Visits'],
  ['fitter', 'By fitter'],
  ['room', 'By room'],
  ['revenue', 'Revenue'],
  ['shoe_work', 'Shoe work'],
  ['referrals', 'Referrals'],
];

/** The work of a period on paper, with the numbers of the CSV; small counts are hidden alike. */
export async function workloadPdf(
  workload: WorkloadResponse,
  about: { studio: string; madeAt: Date },
): Promise<Buffer> {
  const document = await newDocument(`Work ${workload.of}`, about);
  tagged(document, 'H1', () => document.font('bold').fontSize(18).fillColor(ink).text('Work'));
  paragraph(document, `${about.studio} – ${workload.of}`);
  paragraph(document, `Made on ${about.madeAt.toISOString().slice(0, 10)} (UTC).`, grey);
  const rows = workloadRows(workload);
  for (const [section, title] of sections) {
    const own = rows.filter((row) => row.section === section);
    if (own.length === 0) continue;
    heading(document, title);
    for (const name of new Set(own.map((row) => row.name))) {
      const told = own.filter((row) => row.name === name);
      entry(document, name === 'all' ? '' : name, told.map(words).map(unbroken).join(' · '));
    }
  }
  heading(document, 'How to read this');
  paragraph(
    document,
    `Visits that began in the period, by the studio’s calendar; hours booked hold buffers and no-shows. Utilisation is hours booked of hours open by the plan; a dash stands where no hours are recorded. Revenue is what receipts say less credit notes, by the visit a line was earned in. “Hidden” stands where a number would speak of fewer than ${fewestShown} people.`,
  );
  numberPages(document);
  return collected(document);
}

function entry(document: Document, name: string, text: string): void {
  const width = document.page.width - 2 * margin;
  const height = document.font('plain').fontSize(9).heightOfString(text, { width }) + 26;
  if (document.y + height > document.page.height - margin) document.addPage();
  if (name !== '') {
    tagged(document, 'H3', () =>
      document.font('bold').fontSize(9.5).fillColor(ink).text(name, margin, document.y, { width }),
    );
  }
  paragraph(document, text);
}

function words({ statistic, value, unit, hidden }: WorkloadRow): string {
  const label = statistic.replaceAll('_', ' ');
  if (hidden) return `${label}: hidden`;
  if (value === '') return `${label}: –`;
  if (unit === 'of_open') return `${label}: ${Math.round(Number(value) * 100)} %`;
  if (unit === 'hours') return `${label}: ${Number(Number(value).toFixed(1))} h`;
  const amount = value.replace('-', '−');
  return ['visits', 'receipts', 'cases'].includes(unit)
    ? `${label}: ${amount}`
    : `${label}: ${amount} ${unit}`;
}

/** A number is not parted from what it counts. */
const unbroken = (text: string): string => text.replaceAll(' ', '\u00a0');

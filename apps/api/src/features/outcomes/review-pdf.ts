import { answerFunnel, type Drawing } from '@studio/drawings';
import svgToPdf from 'svg-to-pdfkit';
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
import type { OutcomeReviewResponse } from './review.dto.js';
import { forestOf, funnelOf, wholeStage } from './review-drawings.js';
import type { ReviewedSession } from './review.queries.js';
import { reviewTable, type ReviewRow } from './review-table.js';
import { fewestShown, hideSmallCounts } from './small-cells.js';

/**
 * A review on paper: A4, text that can be selected, headings and figures tagged, figures with their words. The numbers
 * are those of the review; small cells are hidden as in the CSV.
 *
 * @param about studio and time, for the head of the page
 */
export async function reviewPdf(
  review: OutcomeReviewResponse,
  sessions: readonly ReviewedSession[],
  about: { studio: string; madeAt: Date },
): Promise<Buffer> {
  const document = await newDocument(`Outcomes: ${review.group}`, about);
  const rows = reviewTable(review);

  tagged(document, 'H1', () => document.font('bold').fontSize(18).fillColor(ink).text('Outcomes'));
  paragraph(document, `${about.studio} – ${review.group}`);
  paragraph(document, `Made on ${about.madeAt.toISOString().slice(0, 10)} (UTC).`, grey);
  if (review.sessions < fewestShown) {
    paragraph(
      document,
      `The group has fewer than ${fewestShown} people: nothing can be shown without speaking of one.`,
    );
  } else {
    heading(document, 'In short');
    for (const words of sentencesOf(rows)) paragraph(document, words);
    figure(document, mayBeShown(review, sessions));
    figure(document, forestOf(withoutFew(review)));
    document.addPage();
    heading(document, 'Numbers');
    measuresTable(document, rows);
    heading(document, 'The group, numb feet, feel, power, comparison');
    otherNumbers(
      document,
      rows.filter(
        ({ section, measure }) => measure === '' || !['measures', 'responders', 'missing'].includes(section),
      ),
    );
  }
  heading(document, 'How to read this');
  paragraph(document, review.caution);
  paragraph(
    document,
    `Intervals cover the truth 95 times in 100. Better, no real change and worse go by published thresholds. A dash stands where there is no number; “hidden” where it would speak of fewer than ${fewestShown} people.`,
  );
  numberPages(document);
  return collected(document);
}

/** The funnel without reasons that few share. */
function mayBeShown(review: OutcomeReviewResponse, sessions: readonly ReviewedSession[]): Drawing {
  const { noAnswer, couldNotBeAsked, notAskedYet } = review.missingBecause;
  if (!hideSmallCounts([noAnswer, couldNotBeAsked, notAskedYet]).includes(null))
    return funnelOf(review, sessions);
  return answerFunnel({
    title: 'Who answered',
    subtitle: review.group,
    stages: [
      { label: 'due', n: review.sessions, lost: [] },
      {
        label: 'answered',
        n: review.answered,
        lost: [{ label: 'could not be asked or did not answer', n: review.missing }],
      },
      wholeStage(review.answered, sessions),
    ],
  });
}

function withoutFew(review: OutcomeReviewResponse): OutcomeReviewResponse {
  return {
    ...review,
    measures: review.measures.map((change) =>
      change.n < fewestShown ? { ...change, n: 0, meanChange: null, interval95: null } : change,
    ),
  };
}

const measureNames: Readonly<Record<string, string>> = {
  '': 'Group',
  pain: 'Pain on the bike, of 10',
  comfort: 'Comfort on the bike, of 100',
  power_20_min_w: '20-minute power, W',
  chosen_activities: 'What they named, of 10',
  global_change: 'All in all, −5 to +5',
  saddle_change_left_minus_predicted_mm: 'Saddle left against computed, mm',
  numb_feet: 'Numb feet, people',
  sprint: 'A sprint feels',
  out_of_the_saddle: 'Out of the saddle feels',
  walking_comfort: 'Walking in the cycling shoes, of 10',
};

function sentencesOf(rows: readonly ReviewRow[]): string[] {
  return rows
    .filter(
      ({ words, statistic, section }) =>
        words !== '' &&
        (['mean_change', 'share_better'].includes(statistic) || ['power', 'walking'].includes(section)),
    )
    .map(({ section, measure, words }) =>
      section === 'power'
        ? `Was 20-minute power lost? ${words}`
        : `${measureNames[measure] ?? measure}: ${words}`,
    );
}

const firstColumn = 105;
const columnWidth = 65;
const columnOf = (index: number): number => margin + firstColumn + index * columnWidth;

/** Measures beside one another, statistics below one another; intervals under their numbers. */
function measuresTable(document: Document, rows: readonly ReviewRow[]): void {
  const measured = rows.filter(({ section }) => ['measures', 'responders', 'missing'].includes(section));
  const names = Object.keys(measureNames).filter((name) => measured.some(({ measure }) => measure === name));
  const columns = names.filter((name) => name !== '');
  const lineOf = (row: ReviewRow): string =>
    row.section === 'measures' ? spaced(row.statistic) : `${row.section}: ${spaced(row.statistic)}`;
  const lines = new Map<string, Map<string, ReviewRow>>();
  for (const row of measured.filter(({ measure }) => measure !== '')) {
    const line = lines.get(lineOf(row)) ?? new Map<string, ReviewRow>();
    lines.set(lineOf(row), line.set(row.measure, row));
  }
  tableLine(
    document,
    'bold',
    '',
    columns.map((name) => measureNames[name] ?? name),
    34,
  );
  const people = columns.map((name) => lines.get('mean change')?.get(name)?.n ?? null);
  tableLine(
    document,
    'plain',
    'people with both values',
    people.map((n) => told(n)),
    13,
  );
  for (const [words, line] of lines) {
    const cells = columns.map((name) => cellOf(line.get(name)));
    tableLine(document, 'plain', words, cells, cells.some((cell) => cell.includes('\n')) ? 22 : 13);
  }
}

function cellOf(row: ReviewRow | undefined): string {
  if (row === undefined) return '';
  if (row.hidden) return 'hidden';
  if (['p', 'p_corrected'].includes(row.statistic) && row.value !== null && row.value < 0.001)
    return '< 0.001';
  const interval = row.low === null || row.high === null ? '' : `\n(${told(row.low)} to ${told(row.high)})`;
  return `${told(row.value)}${interval}`;
}

function tableLine(
  document: Document,
  font: 'plain' | 'bold',
  words: string,
  cells: readonly string[],
  height: number,
): void {
  if (document.y + height > document.page.height - margin) document.addPage();
  const { y } = document;
  tagged(document, 'P', () => {
    document.font(font).fontSize(6.8).fillColor(ink);
    document.text(words, margin, y, { width: firstColumn - 6 });
    cells.forEach((cell, index) =>
      document.text(cell, columnOf(index), y, { width: columnWidth - 3, lineGap: -1 }),
    );
  });
  document
    .moveTo(margin, y + height - 2.5)
    .lineTo(document.page.width - margin, y + height - 2.5)
    .lineWidth(0.3)
    .stroke('#bcc6cd');
  document.x = margin;
  document.y = y + height;
}

/** What speaks of no single measure before and after: one line each. */
function otherNumbers(document: Document, rows: readonly ReviewRow[]): void {
  for (const row of rows) {
    const name = row.measure === '' ? '' : `${measureNames[row.measure] ?? row.measure}: `;
    const section = ['group', 'numb_feet', 'feel', 'walking', 'power'].includes(row.section)
      ? ''
      : `${spaced(row.section)}: `;
    const words = `${section}${spaced(row.statistic)}`;
    const people = row.n === null ? '' : `, n ${row.n}`;
    paragraph(document, `${name}${words}: ${cellOf(row).replace('\n', ' ')}${people}`);
  }
}

const spaced = (name: string): string => name.replaceAll('_', ' ');

const told = (value: number | null): string =>
  value === null ? '–' : String(Number(value.toPrecision(3))).replace('-', '−');

function figure(document: Document, { svg, widthPx, heightPx, title, description }: Drawing): void {
  const width = document.page.width - 2 * margin;
  const height = (heightPx / widthPx) * width;
  if (document.y + height > document.page.height - margin) document.addPage();
  const { y } = document;
  // Without a size of its own it takes the one given here.
  const scalable = svg.replace(/ width="\d+" height="\d+"/, '');
  const draw = () => {
    svgToPdf(document, scalable, margin, y, {
      width,
      height,
      assumePt: true,
      fontCallback: (_family, bold) => (bold ? 'bold' : 'plain'),
    });
  };
  document.addStructure(document.struct('Figure', { title, alt: description }, draw));
  document.x = margin;
  document.y = y + height + 8;
}

import { describe, expect, it } from '@jest/globals';
import { parse } from 'csv-parse/sync';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { reviewedSession } from '../../../../../tests/helpers/reviewed-session.js';
import { groupOf } from './review-group.js';
import { reviewCsv } from './review-csv.js';
import { reviewPdf } from './review-pdf.js';
import type { ReviewedSession } from './review.queries.js';
import { review } from './review.js';

/** Twenty riders: one worse, one without power before, four silent, one who could not be asked. */
const twenty: ReviewedSession[] = Array.from({ length: 20 }, (_, index) => {
  const answerState = index < 15 ? 'answered' : index < 19 ? 'asked' : 'not_asked';
  const answered = answerState === 'answered';
  return reviewedSession({
    clientId: `client ${index}`,
    answerState,
    painBefore: 6,
    painAfter: answered ? (index === 0 ? 9 : index % 4) : null,
    comfortBefore: 40 + index,
    comfortAfter: answered ? 60 - index : null,
    numbnessBefore: index < 8,
    numbnessAfter: answered ? index < 2 : null,
    power20MinBeforeW: index === 3 ? null : 200 + 5 * index,
    power20MinAfterW: answered ? 201 + 5 * index + (index % 3) : null,
    activitiesBefore: index < 10 ? 3 : null,
    activitiesAfter: index < 10 ? 5 + (index % 3) : null,
    overallChange: answered ? (index % 5) - 1 : null,
    walkingComfort: answered ? 5 + (index % 4) : null,
    sprintFeel: answered ? (index < 2 ? 'worse' : index < 8 ? 'better' : 'same') : null,
    standingFeel: answered ? (index < 7 ? 'better' : 'same') : null,
  });
});
const reviewOf = (sessions: readonly ReviewedSession[], groupInWords = 'riders') =>
  review(groupOf(sessions), { groupInWords, powerMarginPercent: 2, others: groupOf(twenty.slice(0, 12)) });

interface Row {
  section: string;
  measure: string;
  statistic: string;
  n: string;
  value: string;
  low: string;
  high: string;
  hidden: string;
  words: string;
  group: string;
}
const rowsOf = (csv: string): Row[] => parse(csv, { columns: true, bom: true });
const rowOf = (rows: Row[], section: string, measure: string, statistic: string): Row => {
  const found = rows.find(
    (row) => row.section === section && row.measure === measure && row.statistic === statistic,
  );
  if (!found) throw new Error(`no ${section} ${measure} ${statistic}`);
  return found;
};

describe('a review as CSV', () => {
  const found = reviewOf(twenty);
  const rows = rowsOf(reviewCsv(found));

  it('has the numbers of the review, to the last digit', () => {
    expect(Number(rowOf(rows, 'group', '', 'sessions').value)).toBe(20);
    for (const change of found.measures.filter(({ n }) => n >= 5)) {
      const mean = rowOf(rows, 'measures', change.measure, 'mean_change');
      expect([Number(mean.value), Number(mean.low), Number(mean.high), Number(mean.n)]).toEqual([
        change.meanChange,
        change.interval95?.low,
        change.interval95?.high,
        change.n,
      ]);
      expect(Number(rowOf(rows, 'measures', change.measure, 'after_median').value)).toBe(
        change.after?.median,
      );
    }
    const power = rowOf(rows, 'power', 'power_20_min_w', 'mean_change_percent');
    expect([Number(power.value), power.words]).toEqual([found.power.meanChangePercent, found.power.answer]);
    expect(rowOf(rows, 'comparison_not_randomised', 'pain', 'difference_of_mean_changes').words).toContain(
      'not randomised',
    );
  });

  it('shows no count of one to four people, nor what it could be worked out from', () => {
    const pain = ['better', 'no_real_change', 'worse'].map((statistic) =>
      rowOf(rows, 'responders', 'pain', statistic),
    );
    expect(pain.map(({ value, hidden }) => [value, hidden])).toEqual([
      ['', 'true'],
      ['0', 'false'],
      ['', 'true'],
    ]);
    expect(rowOf(rows, 'responders', 'pain', 'share_better')).toMatchObject({
      value: '',
      low: '',
      words: '',
    });
    const reasons = ['no_answer', 'could_not_be_asked', 'not_asked_yet'].map(
      (statistic) => rowOf(rows, 'missing', '', statistic).value,
    );
    expect(reasons).toEqual(['', '', '0']);
    const counted = rows.filter(({ section }) => ['missing', 'responders', 'numb_feet'].includes(section));
    for (const { statistic, value } of counted) {
      if (statistic !== 'share_better' && value !== '') {
        expect(Number(value) === 0 || Number(value) >= 5).toBe(true);
      }
    }
  });

  it('hides a share with any count it comes from', () => {
    expect(rowOf(rows, 'feel', 'sprint', 'worse')).toMatchObject({ value: '', hidden: 'true' });
    expect(rowOf(rows, 'feel', 'sprint', 'share_better')).toMatchObject({
      value: '',
      hidden: 'true',
      words: '',
    });
    expect(Number(rowOf(rows, 'feel', 'out_of_the_saddle', 'share_better').value)).toBeCloseTo(7 / 15, 9);
    expect(rowOf(rows, 'feel', 'out_of_the_saddle', 'share_better').words).toContain(
      'No threshold is published',
    );
    expect(Number(rowOf(rows, 'walking', 'walking_comfort', 'after_mean').value)).toBeCloseTo(6.4, 9);
  });

  it('says nothing of a group of four', () => {
    const few = rowsOf(reviewCsv(reviewOf(twenty.slice(0, 4))));
    const telling = few.filter(({ value, low, words }) => value !== '' || low !== '' || words !== '');
    // Of nobody there is nothing to hide: no predicted saddle, no missing.
    expect(telling.filter(({ value }) => Number(value) !== 0)).toEqual([]);
    expect(telling.map(({ words }) => words).join('')).not.toMatch(/In [1-4] people/);
    expect(few.filter(({ hidden }) => hidden === 'true').length).toBeGreaterThan(30);
  });

  it('is never a formula to a spreadsheet', () => {
    for (const words of ['=1+1', '+1', '-1', '@sum(a1)', '\t=1', '\r=1']) {
      const csv = reviewCsv(reviewOf(twenty, words));
      expect(rowsOf(csv).every(({ group }) => group === `'${words}`)).toBe(true);
    }
    expect(reviewCsv(found)).toMatch(
      /^\uFEFFgroup,section,measure,statistic,n,value,low,high,hidden,words\r\n/,
    );
  });
});

const poppler = (() => {
  try {
    execFileSync('pdftotext', ['-v'], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
})();

describe('a review as PDF', () => {
  const about = { studio: 'Harbour Lane Fitting', madeAt: new Date('2026-03-02T09:00:00Z') };

  function read(pdf: Buffer): { text: string; info: string } {
    const folder = mkdtempSync(path.join(tmpdir(), 'review-'));
    try {
      const file = path.join(folder, 'review.pdf');
      writeFileSync(file, pdf);
      const run = (command: string, ...args: string[]) => execFileSync(command, args, { encoding: 'utf8' });
      return { text: run('pdftotext', '-layout', file, '-'), info: run('pdfinfo', file) };
    } finally {
      rmSync(folder, { recursive: true });
    }
  }

  it('is a tagged document in a language, with its title', async () => {
    const pdf = (await reviewPdf(reviewOf(twenty), twenty, about)).toString('latin1');
    expect(pdf.slice(0, 8)).toBe('%PDF-1.7');
    expect(pdf).toMatch(/\/MarkInfo/);
    expect(pdf).toMatch(/\/Lang \(en\)/);
    expect(pdf.match(/\/S \/Figure/g)).toHaveLength(2);
  });

  // Poppler is no dependency of the project: without it this is skipped, and says so.
  (poppler ? it : it.skip)('says to another reader what the review says (poppler)', async () => {
    const found = reviewOf(twenty);
    const { text, info } = read(await reviewPdf(found, twenty, about));
    const flat = text.replaceAll(/\s+/g, ' ');
    expect(info).toMatch(/Title: +Outcomes: riders/);
    expect(info).toMatch(/Tagged: +yes/);
    expect(flat).toContain('Harbour Lane Fitting – riders');
    expect(flat).toContain(found.power.answer);
    expect(flat).toContain(found.measures[0]?.sentence ?? 'no sentence');
    expect(flat).toContain('Nobody was randomised');
    expect(flat).toContain('could not be asked or did not answer');
    expect(flat).not.toMatch(/worse +1 /);
  });

  (poppler ? it : it.skip)('shows nothing of a group of four (poppler)', async () => {
    const few = twenty.slice(0, 4);
    const { text } = read(await reviewPdf(reviewOf(few), few, about));
    expect(text).toContain('fewer than 5 people');
    expect(text).not.toMatch(/mean change|interval \d/);
  });
});

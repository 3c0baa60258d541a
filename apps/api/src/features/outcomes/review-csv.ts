import { stringify } from 'csv-stringify/sync';
import type { OutcomeReviewResponse } from './review.dto.js';
import { reviewTable } from './review-table.js';

const columns = [
  'group',
  'section',
  'measure',
  'statistic',
  'n',
  'value',
  'low',
  'high',
  'hidden',
  'words',
] as const;

/** What the columns hold; part of the API's document. */
export const csvColumns = [
  '`group`: whom the review speaks of, in words',
  '`section`: group, missing, measures, responders, numb_feet, feel, walking, power or comparison_not_randomised',
  '`measure`: empty where the row speaks of the whole group',
  '`statistic`: what the number is',
  '`n`: people it rests on',
  '`value`: the number; percent where the statistic says so, shares from 0 to 1, otherwise in the unit of the measure',
  '`low`, `high`: ends of its 95 % interval, where it has one',
  '`hidden`: true where the number speaks of fewer than five people or would let such a number be worked out',
  '`words`: the same in a sentence, where there is one',
].join('; ');

/**
 * A review as CSV (RFC 4180) in UTF-8 with a byte order mark, every number as in the review itself. A text that a
 * spreadsheet would take for a formula is led by an apostrophe.
 */
export function reviewCsv(review: OutcomeReviewResponse): string {
  const rows = reviewTable(review).map((row) => ({ group: review.group, ...row }));
  return stringify(rows, {
    header: true,
    columns: [...columns],
    record_delimiter: 'windows',
    bom: true,
    escape_formulas: true,
    cast: { boolean: String },
  });
}

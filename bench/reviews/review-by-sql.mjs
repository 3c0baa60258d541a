import { readFileSync } from 'node:fs';
import path from 'node:path';

export const fromScratch = readFileSync(path.join(import.meta.dirname, 'from-scratch.sql'), 'utf8');
export const fromSummaries = 'SELECT * FROM outcome_summaries WHERE studio_id = $1';

const columnsOf = /** @type {const} */ ({
  pain: ['pain_before', 'pain_after'],
  comfort: ['comfort_before', 'comfort_after'],
  power_20_min_w: ['power_20_min_before_w', 'power_20_min_after_w'],
  chosen_activities: ['activities_before', 'activities_after'],
  global_change: ['0', 'overall_change'],
  saddle_change_left_minus_predicted_mm: [
    'saddle_change_predicted_mm + saddle_offset_mm',
    'saddle_change_left_mm',
  ],
});

/**
 * @typedef {{ n: number, mean: number, sd: number, median: number, upper: number }} MeasureBySql `upper`: upper
 *   quartile after
 * @typedef {{ sessions: number, answered: number, measures: Record<keyof typeof columnsOf, MeasureBySql> }} ReviewBySql
 */

/**
 * A review's numbers of studio $1 by hand-written SQL, each client by the newest session.
 *
 * @param {string} outcomes the rows it is taken from
 * @param {string} condition
 */
export function reviewSql(outcomes, condition) {
  const measures = Object.entries(columnsOf).map(([measure, [before, after]]) => {
    const change = `((${after}) - (${before}))`;
    return `'${measure}', json_build_object(
      'n', count(${change}), 'mean', avg(${change}), 'sd', stddev_samp(${change}),
      'median', percentile_cont(0.5) WITHIN GROUP (ORDER BY ${change}),
      'upper', percentile_cont(0.75) WITHIN GROUP (ORDER BY ${after}) FILTER (WHERE ${change} IS NOT NULL))`;
  });
  return `WITH outcome AS (${outcomes}),
    newest AS (
      SELECT DISTINCT ON (client_id) * FROM outcome
       WHERE first_due_at <= now() AND ${condition} ORDER BY client_id, signed_at DESC)
    SELECT count(*)::int AS sessions, (count(*) FILTER (WHERE answer_state = 'answered'))::int AS answered,
           json_build_object(${measures.join(', ')}) AS measures FROM newest`;
}

import type { Feel } from '@studio/database';
import type { ClientSummary, JudgedMeasure, MeasureSummary, SaddleSummary } from './client-summary-shape.js';

const names: Readonly<Record<JudgedMeasure, string>> = {
  pain: 'Pain on the bike',
  comfort: 'Comfort on the bike',
  power_20_min_w: '20-minute power',
  chosen_activities: 'What you wanted to do better',
  global_change: 'All in all',
};

/** Plain words without names or addresses: who sends it adds the greeting. */
export function summaryText({
  weeks,
  measures,
  numbness,
  told,
  saddle,
}: Pick<ClientSummary, 'measures' | 'numbness' | 'told' | 'saddle'> & { weeks: number | null }): string {
  return [
    weeks === null ? 'Since your fit:' : `${weeks} weeks after your fit, compared with before:`,
    ...measures.filter(wasAsked).map(measureSentence),
    numbnessSentence(numbness),
    ...toldSentences(told),
    ...(saddle ? [saddleSentence(saddle)] : []),
    'A change after a fit is not proof that the fit did it. If anything new worries you, tell us or a doctor; do not wait for the next question.',
  ].join('\n');
}

/** Who named nothing before the fit is not asked about it, and an older set of questions asks neither. */
const wasAsked = ({ measure, before, after }: MeasureSummary): boolean =>
  (measure !== 'chosen_activities' || before !== null) && (measure !== 'global_change' || after !== null);

function measureSentence({ measure, before, after, detectable, important, verdict }: MeasureSummary): string {
  const name = names[measure];
  if (before === null || after === null) {
    const lacking = before === null ? 'there is no value from before' : 'there is no answer yet';
    return `${name}: cannot tell, as ${lacking}.`;
  }
  const change =
    measure === 'global_change'
      ? `${name}: ${spelled(measure, after)}, on a scale from −5 to +5`
      : `${name}: ${spelled(measure, before)} before, ${spelled(measure, after)} now`;
  const needed = Math.max(detectable ?? 0, important ?? 0);
  switch (verdict) {
    case 'better':
    case 'worse':
      return `${change}: ${verdict}. A change of ${size(measure, needed)} counts as real.`;
    case 'no real change':
      return `${change}: no real change. Less than ${size(measure, needed)} can be chance, or too little to matter.`;
    case 'cannot tell':
      return `${change}: cannot tell.`;
  }
}

const size = (measure: JudgedMeasure, change: number): string =>
  measure === 'global_change' ? String(change) : spelled(measure, change);

function spelled(measure: JudgedMeasure, value: number): string {
  const number = Number.isInteger(value) ? value.toFixed(0) : value.toFixed(1);
  switch (measure) {
    case 'pain':
    case 'chosen_activities':
      return `${number} of 10`;
    case 'global_change':
      return value > 0 ? `+${number}` : number.replace('-', '−');
    case 'comfort':
      return `${number} of 100`;
    case 'power_20_min_w':
      return `${value.toFixed(0)} W`;
  }
}

function numbnessSentence({ before, after }: ClientSummary['numbness']): string {
  if (before === null || after === null) return 'Numb feet: cannot tell, as it was not answered both times.';
  if (before) return after ? 'Numb feet: before and now.' : 'Numb feet: before, not now.';
  return after ? 'Numb feet: not before, but now.' : 'Numb feet: neither before nor now.';
}

const feelings: Readonly<Record<Feel, string>> = {
  much_better: 'much better than before the fit',
  better: 'better than before the fit',
  same: 'the same as before the fit',
  worse: 'worse than before the fit',
  much_worse: 'much worse than before the fit',
  not_tried: 'not tried yet',
};

function toldSentences({ walkingComfort, sprintFeel, standingFeel }: ClientSummary['told']): string[] {
  return [
    ...(walkingComfort === null
      ? []
      : [
          `Walking in your cycling shoes: ${walkingComfort} of 10. How large a change of it matters is not known.`,
        ]),
    ...(sprintFeel === null ? [] : [`Sprinting: ${feelings[sprintFeel]}.`]),
    ...(standingFeel === null ? [] : [`Riding out of the saddle: ${feelings[standingFeel]}.`]),
  ];
}

function saddleSentence({ predictedMm, sdMm, leftMm, asPredicted }: SaddleSummary): string {
  const told = `The saddle was computed to go ${moved(predictedMm)} (± ${(2 * sdMm).toFixed(0)} mm) and was left ${moved(leftMm)}`;
  return asPredicted ? `${told}, as computed.` : `${told}: more apart than the computing errs.`;
}

function moved(mm: number): string {
  const whole = Math.abs(mm).toFixed(0);
  if (whole === '0') return 'where it was';
  return `${whole} mm ${mm < 0 ? 'lower' : 'higher'}`;
}

import type { ClientSummary, JudgedMeasure, MeasureSummary, SaddleSummary } from './client-summary-shape.js';

const names: Readonly<Record<JudgedMeasure, string>> = {
  pain: 'Pain on the bike',
  comfort: 'Comfort on the bike',
  power_20_min_w: '20-minute power',
};

/** Plain words without names or addresses: who sends it adds the greeting. */
export function summaryText({
  weeks,
  measures,
  numbness,
  saddle,
}: Pick<ClientSummary, 'measures' | 'numbness' | 'saddle'> & { weeks: number | null }): string {
  return [
    weeks === null ? 'Since your fit:' : `${weeks} weeks after your fit, compared with before:`,
    ...measures.map(measureSentence),
    numbnessSentence(numbness),
    ...(saddle ? [saddleSentence(saddle)] : []),
    'A change after a fit is not proof that the fit did it. If anything new worries you, tell us or a doctor; do not wait for the next question.',
  ].join('\n');
}

function measureSentence({ measure, before, after, detectable, important, verdict }: MeasureSummary): string {
  const name = names[measure];
  if (before === null || after === null) {
    const lacking = before === null ? 'there is no value from before' : 'there is no answer yet';
    return `${name}: cannot tell, as ${lacking}.`;
  }
  const change = `${name}: ${spelled(measure, before)} before, ${spelled(measure, after)} now`;
  const needed = Math.max(detectable ?? 0, important ?? 0);
  switch (verdict) {
    case 'better':
    case 'worse':
      return `${change}: ${verdict}. A change of ${spelled(measure, needed)} counts as real.`;
    case 'no real change':
      return `${change}: no real change. Less than ${spelled(measure, needed)} can be chance, or too little to matter.`;
    case 'cannot tell':
      return `${change}: cannot tell.`;
  }
}

function spelled(measure: JudgedMeasure, value: number): string {
  const number = Number.isInteger(value) ? value.toFixed(0) : value.toFixed(1);
  switch (measure) {
    case 'pain':
      return `${number} of 10`;
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

function saddleSentence({ predictedMm, sdMm, leftMm, asPredicted }: SaddleSummary): string {
  const told = `The saddle was computed to go ${moved(predictedMm)} (± ${(2 * sdMm).toFixed(0)} mm) and was left ${moved(leftMm)}`;
  return asPredicted ? `${told}, as computed.` : `${told}: more apart than the computing errs.`;
}

function moved(mm: number): string {
  const whole = Math.abs(mm).toFixed(0);
  if (whole === '0') return 'where it was';
  return `${whole} mm ${mm < 0 ? 'lower' : 'higher'}`;
}

import { evaluate, factsOf, riderIntake, rules, factsFrom } from '@studio/clinical-flags';
import { inTurn, perCall } from '../figures.mjs';

/**
 * A rider who marks three places and answers everything else, so that every rule is judged whole.
 *
 * @type {Record<string, unknown>}
 */
const answers = {};
for (const question of riderIntake.questions) {
  if (question.perSite || question.context) continue;
  answers[question.id] = question.kind === 'yes_no' ? 'no' : question.kind === 'number' ? question.max : [];
}
const complaint = {
  quality: ['pain'],
  when: ['riding'],
  duration: 'two_to_six_weeks',
  worst: 3,
  rises: 'no',
};
const sites = ['neck', 'left_knee_front', 'right_calf'];
answers['complaint_sites'] = sites;
for (const site of sites) {
  for (const [part, answer] of Object.entries(complaint)) answers[`complaint_${part}@${site}`] = answer;
}
const facts = factsFrom(riderIntake, answers);

/** What no engine can do without: look at each fact each rule reads, once. */
const read = rules.map(({ raisedWhen }) => factsOf(raisedWhen));
function bare() {
  let answered = 0;
  for (const ids of read) {
    for (const id of ids) if (/** @type {Record<string, unknown>} */ (facts)[id] !== undefined) answered += 1;
  }
  return answered;
}

/**
 * What judging every rule costs, against looking at the facts alone.
 *
 * @param {{ rounds: number, burstMs: number }} length
 * @returns {Promise<import('../figures.mjs').Figure[]>}
 */
export async function clinicalFlagsFigures({ rounds, burstMs }) {
  if (evaluate(facts).openFacts.length > 0)
    throw new Error('the rider of the benchmark leaves questions open');
  const { judged, reads } = await inTurn(rounds, {
    judged: () => perCall(burstMs, () => evaluate(facts).findings.length),
    reads: () => perCall(burstMs, bare),
  });
  return [
    {
      figure: `judging ${rules.length} rules`,
      measured: { name: 'evaluate', unit: 'µs', rounds: judged },
      baseline: { name: 'each fact read once', unit: 'µs', rounds: reads },
      atMost: 50,
    },
  ];
}

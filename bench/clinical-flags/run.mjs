// npx tsc -b libs/clinical-flags && node bench/clinical-flags/run.mjs
import { evaluate, factsOf, riderIntake, rules, factsFrom } from '../../libs/clinical-flags/dist/index.js';
import { printSmallFigure } from './figure.mjs';

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

if (evaluate(facts).openFacts.length > 0) throw new Error('the rider of the benchmark leaves questions open');
printSmallFigure(
  { name: `evaluate, ${rules.length} rules`, work: () => evaluate(facts).findings.length },
  { name: 'bare reads', work: bare },
);

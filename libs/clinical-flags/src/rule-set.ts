import { evaluateRules, type Evaluation } from './evaluate.js';
import type { Facts } from './facts.js';
import type { Rule } from './rule.js';
import { bladderBowelOrBothLegs } from './rules/bladder-bowel-or-both-legs.js';
import { calfPainOnWalking } from './rules/calf-pain-on-walking.js';
import { chestPain } from './rules/chest-pain.js';
import { footNumbOffTheBike } from './rules/foot-numb-off-the-bike.js';
import { footNumbOnTheBike } from './rules/foot-numb-on-the-bike.js';
import { newOneSidedLegSwelling } from './rules/new-one-sided-leg-swelling.js';
import { oneLegFadesOnHardEffort } from './rules/one-leg-fades-on-hard-effort.js';
import { saddleNumbnessADayLater } from './rules/saddle-numbness-a-day-later.js';
import { saddleNumbnessWithCordSigns } from './rules/saddle-numbness-with-cord-signs.js';

/** Raised with every change of a rule; stored with every screening. */
export const ruleSetVersion = '2026.2';

export const rules: readonly Rule[] = [
  chestPain,
  saddleNumbnessWithCordSigns,
  bladderBowelOrBothLegs,
  newOneSidedLegSwelling,
  saddleNumbnessADayLater,
  oneLegFadesOnHardEffort,
  calfPainOnWalking,
  footNumbOffTheBike,
  footNumbOnTheBike,
];

/**
 * Judge the facts by the rules in force.
 *
 * @param before the facts of the screening before, to tell what is raised anew from what stands there already
 */
export function evaluate(facts: Facts, before?: Facts): Evaluation {
  return evaluateRules(rules, ruleSetVersion, facts, before);
}

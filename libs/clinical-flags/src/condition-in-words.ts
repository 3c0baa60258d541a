import type { Condition } from './condition.js';

/** A condition as a sentence part a clinician can read and sign: facts by their ids, thresholds as numbers. */
export function conditionInWords(condition: Condition): string {
  if ('all' in condition) return condition.all.map(part).join(' and ');
  if ('any' in condition) return condition.any.map(part).join(' or ');
  if ('unless' in condition) return `unless clearly ${part(condition.unless)}`;
  if ('someSite' in condition) {
    const where = condition.at ? `at one site of ${condition.at.map(named).join(', ')}` : 'at some body site';
    return `${where}: ${part(condition.someSite)}`;
  }
  if ('yes' in condition) return `${named(condition.yes)}: yes`;
  if ('no' in condition) return `${named(condition.no)}: no`;
  const fact = named(condition.fact);
  if ('atLeast' in condition) return `${fact} ≥ ${condition.atLeast}`;
  if ('above' in condition) return `${fact} > ${condition.above}`;
  if ('below' in condition) return `${fact} < ${condition.below}`;
  return 'anyOf' in condition
    ? `${fact} has ${condition.anyOf.map(named).join(' or ')}`
    : `${fact} has only ${condition.onlyOf.map(named).join(', ')}`;
}

const part = (condition: Condition): string =>
  'all' in condition || 'any' in condition ? `(${conditionInWords(condition)})` : conditionInWords(condition);

const named = (id: string): string => id.replaceAll('_', ' ');

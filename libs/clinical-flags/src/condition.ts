import type { FactId, Facts, YesNo } from './facts.js';

/** When a rule speaks, as data: so that it can be judged, put into words and asked what it reads. */
export type Condition =
  | { readonly yes: FactId }
  | { readonly no: FactId }
  | { readonly all: readonly Condition[] }
  | { readonly any: readonly Condition[] };

/** What "don't know" counts as: on the way to an emergency or to a doctor the same day it counts as yes. */
export type DontKnow = 'yes' | 'cannot_tell';

export type Truth = 'true' | 'false' | 'unknown';

/**
 * Three-valued logic (Kleene 1938): what is not known makes the whole unknown unless the rest decides it alone.
 */
export function judge(condition: Condition, facts: Facts, dontKnow: DontKnow): Truth {
  if ('yes' in condition) return truthOf(facts[condition.yes], 'yes', dontKnow);
  if ('no' in condition) return truthOf(facts[condition.no], 'no', dontKnow);
  const [parts, decisive, otherwise] =
    'all' in condition
      ? ([condition.all, 'false', 'true'] as const)
      : ([condition.any, 'true', 'false'] as const);
  const truths = parts.map((part) => judge(part, facts, dontKnow));
  if (truths.includes(decisive)) return decisive;
  return truths.includes('unknown') ? 'unknown' : otherwise;
}

function truthOf(answer: YesNo | undefined, wanted: 'yes' | 'no', dontKnow: DontKnow): Truth {
  if (answer === undefined) return 'unknown';
  if (answer === 'unknown') return dontKnow === 'yes' ? 'true' : 'unknown';
  return answer === wanted ? 'true' : 'false';
}

/** The facts a condition reads, each once, in the order it names them. */
export function factsOf(condition: Condition): FactId[] {
  if ('yes' in condition) return [condition.yes];
  if ('no' in condition) return [condition.no];
  const parts = 'all' in condition ? condition.all : condition.any;
  return [...new Set(parts.flatMap(factsOf))];
}

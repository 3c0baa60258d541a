import { judge } from '../condition.js';
import type { Facts } from '../facts.js';
import type { Answers } from './question.js';
import { isOpen, type QuestionSet } from './question-set.js';
import { askedOf } from './relevant-questions.js';

/**
 * The facts the answers settle. A question that an earlier answer made needless counts as "no" or as nothing of the
 * kind; one that was not answered settles nothing. An answer that was given counts, even to a question that became
 * needless.
 *
 * Of a set with a gate, what it does not ask stands as it was before. Fold a client's screenings from the oldest on:
 * `facts = factsFrom(set, answers, facts)`.
 *
 * @param given answers that `checkAnswers` found no problem with
 * @param before the facts of the screening before; without them a set with a gate settles only what it asks
 */
export function factsFrom(set: QuestionSet, given: Answers, before: Facts = {}): Facts {
  const facts: Record<string, unknown> = set.gate === undefined ? {} : { ...before };
  const open = isOpen(set, given);
  for (const { key, id, kind, onlyWhen, context, site } of askedOf(set, given)) {
    if (context || id === set.gate) continue;
    const needless = onlyWhen && judge(onlyWhen, facts, 'yes', site?.id).truth === 'false';
    const nothing = kind === 'yes_no' ? 'no' : 'none';
    if (given[key] !== undefined) facts[key] = given[key];
    else if (open) facts[key] = needless ? nothing : undefined;
  }
  return Object.fromEntries(Object.entries(facts).filter(([, value]) => value !== undefined));
}

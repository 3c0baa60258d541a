import { judge } from '../condition.js';
import type { Facts } from '../facts.js';
import type { Answers } from './question.js';
import { sectionOpen, type QuestionSet } from './question-set.js';
import { askedOf } from './relevant-questions.js';

/**
 * The facts the answers settle. A question that an earlier answer made needless counts as "no" or as nothing of the
 * kind; one that was not answered settles nothing. An answer that was given counts, even to a question that became
 * needless.
 *
 * Of a set of scope `what_is_new`, what a closed section would ask stands as it was before. Fold a client's screenings
 * from the oldest on: `facts = factsFrom(set, answers, facts)`.
 *
 * @param given answers that `checkAnswers` found no problem with
 * @param before the facts of the screening before; without them a set of what is new settles only what it asks
 */
export function factsFrom(set: QuestionSet, given: Answers, before: Facts = {}): Facts {
  const facts: Record<string, unknown> = set.scope === 'what_is_new' ? { ...before } : {};
  for (const { key, id, kind, onlyWhen, context, site } of askedOf(set, given)) {
    if (context) continue;
    if (given[key] !== undefined) facts[key] = given[key];
    else if (sectionOpen(set, id, given) !== 'false') {
      const needless = onlyWhen && judge(onlyWhen, facts, 'yes', site?.id).truth === 'false';
      facts[key] = needless ? (kind === 'yes_no' ? 'no' : 'none') : undefined;
    }
  }
  return Object.fromEntries(Object.entries(facts).filter(([, value]) => value !== undefined));
}

import { judge } from '../condition.js';
import { siteOf, type BodySite } from './body-sites.js';
import type { Answers, Question } from './question.js';
import { sectionOpen, type QuestionSet } from './question-set.js';

/** A question as it stands now: of one body site when it is asked for each. */
export type AskedQuestion = Question & {
  /** What its answer is kept under: the id, or `id@site`. */
  readonly key: string;
  readonly site: BodySite | null;
};

/**
 * The questions that the answers so far make relevant, in the order of the set. One that depends on an answer not yet
 * given is not relevant yet; those for each body site follow the sites in the order they were named.
 *
 * @param given answers that `checkAnswers` found no problem with
 *
 * @example
 * relevantQuestions(riderIntake, { saddle_numb: 'yes' }).some(({ key }) => key === 'saddle_numb_day_after'); // true
 */
export function relevantQuestions(set: QuestionSet, given: Answers): AskedQuestion[] {
  return askedOf(set, given).filter(
    ({ id, onlyWhen, site }) =>
      sectionOpen(set, id, given) === 'true' &&
      (!onlyWhen || judge(onlyWhen, given, 'yes', site?.id).truth === 'true'),
  );
}

/** Every question of the set, those for each body site once for every site named. */
export function askedOf({ questions }: Pick<QuestionSet, 'questions'>, given: Answers): AskedQuestion[] {
  const named = given['complaint_sites'];
  const sites = Array.isArray(named) ? named.map((id) => siteOf(String(id))).filter((site) => !!site) : [];
  const perSite = questions.filter((question) => question.perSite);
  return questions.flatMap((question): AskedQuestion[] => {
    if (!question.perSite) return [{ ...question, key: question.id, site: null }];
    // They are asked together, site by site, where the first of them stands.
    if (question !== perSite[0]) return [];
    return sites.flatMap((site) => perSite.map((own) => ({ ...own, key: `${own.id}@${site.id}`, site })));
  });
}

import {
  activityQuestions,
  findQuestionSet,
  takesDontKnow,
  type Question,
  type QuestionSet,
} from '@studio/clinical-flags';
import type { FollowUp } from '@studio/database';
import type { PlanStep } from '@studio/follow-up-plans';
import type { EntityManager } from 'typeorm';
import { isPermitted } from '../screenings/index.js';
import { listActivities } from './chosen-activities.queries.js';

export interface AskedOf {
  /** As this client is asked it: with what they named, and without what is not to be asked of them. */
  readonly set: QuestionSet;
  /** Not of somebody whom a finding keeps from hard efforts. */
  readonly asksForPower: boolean;
}

/** What a follow-up asks its client. */
export async function askedOf(tx: EntityManager, followUp: FollowUp): Promise<AskedOf> {
  const { studioId, clientId, fitSessionId } = followUp;
  const activities = await listActivities(tx, { studioId, fitSessionId });
  const asksForPower = await isPermitted(tx, { studioId, clientId }, 'hard_effort');
  const named = new Map(activities.map(({ position, activity }) => [`activity_${position}`, activity]));
  return { set: personal(publishedSet(followUp), { named, asksForPower }), asksForPower };
}

const hardEfforts = 'hard-efforts';

/** A ride is wanted where its power is. */
export const asksForRide = ({ sections }: QuestionSet): boolean =>
  sections.some(({ id }) => id === hardEfforts);

/** The set by its name and version, as it was promised. */
export function publishedSet({ step }: Pick<FollowUp, 'step'>): QuestionSet {
  const { id, version } = (step as PlanStep).questionSet;
  const set = findQuestionSet(id, version);
  if (!set) throw new TypeError('the follow-up names a question set that is gone');
  return set;
}

export function personal(
  set: QuestionSet,
  { named, asksForPower }: { named: ReadonlyMap<string, string>; asksForPower: boolean },
): QuestionSet {
  const sections = set.sections
    .filter(({ id }) => asksForPower || id !== hardEfforts)
    .map((section) => ({ ...section, questions: section.questions.filter((id) => isNamed(id, named)) }))
    .filter(({ questions }) => questions.length > 0);
  const asked = sections.flatMap(({ questions }) => questions);
  return {
    ...set,
    sections,
    questions: set.questions.flatMap((question) =>
      asked.includes(question.id) ? [inOwnWords(question, named.get(question.id))] : [],
    ),
  };
}

const isNamed = (id: string, named: ReadonlyMap<string, string>): boolean =>
  !activityQuestions.some((activity) => activity === id) || named.has(id);

const inOwnWords = (question: Question, activity: string | undefined): Question =>
  activity === undefined ? question : { ...question, text: `How well can you do this: “${activity}”?` };

/** What the rules read; the rest is about how it went. */
export function healthAnswers(
  set: QuestionSet,
  answers: Readonly<Record<string, unknown>>,
): Record<string, unknown> {
  const ids = set.questions.filter(takesDontKnow).map(({ id }) => id);
  return Object.fromEntries(
    Object.entries(answers).filter(([key]) => ids.includes(key.split('@')[0] as string)),
  );
}

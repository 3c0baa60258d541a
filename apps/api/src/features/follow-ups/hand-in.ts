import { checkAnswers, type Evaluation, type QuestionSet } from '@studio/clinical-flags';
import {
  announce,
  cancelMessages,
  closeTask,
  openTask,
  recordAudit,
  type FollowUp,
  type TenantContext,
} from '@studio/database';
import type { EntityManager } from 'typeorm';
import { isUrgent } from '../referrals/index.js';
import { AnswersInvalid, screen } from '../screenings/index.js';
import { healthAnswers, publishedSet } from './asked-of.js';
import * as queries from './follow-ups.queries.js';
import { findRide, type Ride } from './rides.queries.js';
import { summariseAgain } from './schedule-follow-ups.js';

type Answers = Readonly<Record<string, unknown>>;

export interface HandedIn {
  /** What the client should do now, most pressing first. */
  readonly advice: readonly string[];
  readonly isUrgent: boolean;
  readonly caution: string;
}

/**
 * Keep the answers to a follow-up: each of them; those about health judged by the rules; and what outcomes read.
 *
 * @param followUp locked, and in a state in which it may be answered
 * @throws AnswersInvalid; nothing is kept then
 */
export async function handIn(
  tx: EntityManager,
  ctx: TenantContext,
  followUp: FollowUp,
  answers: Answers,
): Promise<HandedIn> {
  const { studioId } = ctx;
  const { id, clientId } = followUp;
  const set = publishedSet(followUp);
  const problems = checkAnswers(set, answers);
  if (problems.length > 0) throw new AnswersInvalid(problems);
  const { id: screeningId, evaluation, stands } = await judge(tx, ctx, followUp, answers);
  await queries.insertAnswers(tx, { studioId, followUpId: id }, answers);
  const measures = withRide(measuresOf(answers), await findRide(tx, { studioId, followUpId: id }));
  await queries.storeAnswers(tx, { studioId, id }, { ...measures, screeningId });
  await closeTask(tx, { studioId, kind: 'follow_up_unanswered', subjectId: id });
  await cancelMessages(tx, { studioId, subjectId: id, because: 'answered' });
  if (wantsReading(answers)) {
    await openTask(tx, { studioId, kind: 'follow_up_to_read', role: 'fitter', clientId, subjectId: id });
  }
  await summariseAgain(tx, studioId, [followUp]);
  await announce(tx, { studioId, type: 'follow_up.answered', subjectId: id });
  await recordAudit(tx, ctx, { action: 'follow-ups.answer', recordId: id });
  return {
    advice: [
      ...new Set([...stands.map(({ messageForClient }) => messageForClient), ...warningsOf(set, answers)]),
    ],
    isUrgent: stands.some(({ route }) => isUrgent(route)),
    caution: evaluation.caution,
  };
}

/** Judge the answers about health by the rules, and keep both. */
export function judge(
  tx: EntityManager,
  ctx: TenantContext,
  followUp: FollowUp,
  answers: Answers,
): Promise<Awaited<ReturnType<typeof screen>> & { evaluation: Evaluation }> {
  const set = publishedSet(followUp);
  return screen(tx, ctx, {
    clientId: followUp.clientId,
    occasion: 'follow_up',
    questionSetId: set.id,
    questionSetVersion: set.version,
    answers: healthAnswers(set, answers),
  });
}

/** What is told at once about the bike or the shoes. */
export const warningsOf = ({ questions }: QuestionSet, answers: Answers): string[] =>
  questions.flatMap(({ id, warns }) => (warns && answers[id] === warns.on ? [warns.advice] : []));

/** What outcomes compare; null where it was not answered, or not known. */
export function measuresOf(
  answers: Answers,
): Pick<FollowUp, 'pain' | 'comfort' | 'numbness' | 'power20MinW' | 'saddleHeightMm'> {
  const number = (key: string): number | null => {
    const answer = answers[key];
    return typeof answer === 'number' ? answer : null;
  };
  const numb = answers['foot_numb_on_bike'];
  return {
    pain: number('pain'),
    comfort: number('comfort'),
    numbness: numb === 'yes' ? true : numb === 'no' ? false : null,
    power20MinW: number('power_20_min_w'),
    saddleHeightMm: number('saddle_height_mm'),
  };
}

/** The question is for the highest power since the fit: what a recording shows and what was told, whichever is more. */
export function withRide(
  measures: ReturnType<typeof measuresOf>,
  ride: Pick<Ride, 'power20MinW'> | null,
): ReturnType<typeof measuresOf> {
  const known = [measures.power20MinW, ride?.power20MinW ?? null].filter((power) => power !== null);
  return { ...measures, power20MinW: known.length === 0 ? null : Math.max(...known) };
}

/** Pain from which a fitter reads the answers soon, wherever it was said to be: as the rule of severe pain has it. */
const severePain = 7;
/** Half-way to "very much worse". House rule. */
const clearlyWorse = -3;

/** Whether a person should read the answers soon, though no rule raised anything. */
export function wantsReading(answers: Answers): boolean {
  const { worry, pain, overall_change: change } = answers;
  return (
    (typeof worry === 'string' && worry.trim() !== '') ||
    (typeof pain === 'number' && pain >= severePain) ||
    (typeof change === 'string' && Number(change) <= clearlyWorse) ||
    ['bolts_checked', 'shoes_release'].some((key) => answers[key] === 'no') ||
    answers['shoes_loose'] === 'yes'
  );
}

import { checkAnswers, evaluate, factsFrom, findQuestionSet, type Evaluation } from '@studio/clinical-flags';
import type { ScreeningOccasion, TenantContext } from '@studio/database';
import type { EntityManager } from 'typeorm';
import { refer } from '../referrals/index.js';
import { AnswersInvalid, UnknownQuestionSet } from './screenings.errors.js';
import { insertFindings, insertScreening, lockClient } from './screenings.queries.js';

/**
 * Judge answers by the rules in force and keep both; what is raised and needs a clinician opens a referral case.
 *
 * @throws UnknownQuestionSet, AnswersInvalid; nothing is kept then
 */
export async function screen(
  tx: EntityManager,
  ctx: TenantContext,
  given: {
    clientId: string;
    occasion: ScreeningOccasion;
    questionSetId: string;
    questionSetVersion: string;
    answers: Record<string, unknown>;
  },
): Promise<{ id: string; evaluation: Evaluation }> {
  const { studioId, userId } = ctx;
  const { clientId } = given;
  const set = findQuestionSet(given.questionSetId, given.questionSetVersion);
  if (!set) throw new UnknownQuestionSet();
  const problems = checkAnswers(set, given.answers);
  if (problems.length > 0) throw new AnswersInvalid(problems);
  const evaluation = evaluate(factsFrom(set, given.answers));
  // Two screenings at once would each open a case for the same finding.
  await lockClient(tx, { studioId, clientId });
  const screeningId = await insertScreening(tx, { studioId, ...given, evaluation, takenBy: userId });
  const raised = evaluation.findings.filter(({ result }) => result === 'raised');
  const findings = await insertFindings(tx, { studioId, clientId, screeningId }, raised);
  await refer(tx, ctx, { clientId, screeningId, findings });
  return { id: screeningId, evaluation };
}

import {
  checkAnswers,
  evaluate,
  factsFrom,
  findQuestionSet,
  withClinicianScores,
  type ClinicianScore,
  type Evaluation,
  type Finding,
} from '@studio/clinical-flags';
import type { ScreeningOccasion, TenantContext } from '@studio/database';
import type { EntityManager } from 'typeorm';
import { isUrgent, refer } from '../referrals/index.js';
import { findPermission } from './find-permission.js';
import type { AnsweredScreening } from './given-answers.js';
import { AnswersInvalid, NotPermitted, UnknownQuestionSet } from './screenings.errors.js';
import { insertFindings, insertScreening, listAnswered, lockClient } from './screenings.queries.js';

type Answers = AnsweredScreening['answers'];
type Facts = ReturnType<typeof factsFrom>;

/**
 * Judge answers by the rules in force and keep both; what is raised anew and needs a clinician opens a referral case.
 *
 * @returns in `stands` what is raised and not cleared: what was cleared and has not changed need not be told again
 * @throws UnknownQuestionSet, AnswersInvalid; nothing is kept then
 */
export async function screen(
  tx: EntityManager,
  ctx: TenantContext,
  given: AnsweredScreening & { clientId: string; occasion: ScreeningOccasion },
): Promise<{ id: string; evaluation: Evaluation; stands: Finding[] }> {
  const { studioId, userId } = ctx;
  const { clientId, answers } = given;
  const set = findQuestionSet(given.questionSetId, given.questionSetVersion);
  if (!set) throw new UnknownQuestionSet();
  const problems = checkAnswers(set, answers);
  if (problems.length > 0) throw new AnswersInvalid(problems);
  // Two screenings at once would each open a case for the same finding.
  await lockClient(tx, { studioId, clientId });
  const before = await standingFacts(tx, { studioId, clientId });
  const evaluation = evaluate(factsFrom(set, answers, before), before);
  const screeningId = await insertScreening(tx, { studioId, ...given, evaluation, takenBy: userId });
  const raised = evaluation.findings.filter((finding) => isRaisedAnew(finding, answers));
  const findings = await insertFindings(tx, { studioId, clientId, screeningId }, raised);
  await refer(tx, ctx, { clientId, screeningId, findings });
  const standing = (await findPermission(tx, { studioId, clientId }))?.standing ?? [];
  const stands = evaluation.findings.filter(
    (finding) =>
      finding.result === 'raised' &&
      (raised.includes(finding) ||
        standing.some(
          (item) => item.finding.ruleId === finding.ruleId && item.finding.permission.barred.length > 0,
        )),
  );
  return { id: screeningId, evaluation, stands };
}

/**
 * Judge again what is known of a client together with what a licensed clinician found. Nobody was asked anything anew, so
 * the screening holds no answers; a score adds findings and takes none away.
 *
 * @returns the id of the new screening
 * @throws NotPermitted for a client who was never screened
 */
export async function screenByClinician(
  tx: EntityManager,
  ctx: TenantContext,
  { clientId, score }: { clientId: string; score: ClinicianScore },
): Promise<string> {
  const { studioId, userId } = ctx;
  const of = { studioId, clientId };
  await lockClient(tx, of);
  const last = (await listAnswered(tx, of)).at(-1);
  const known = await standingFacts(tx, of);
  if (!last || !known) throw new NotPermitted('Screen the client first.');
  const evaluation = withClinicianScores(evaluate(known, known), [score]);
  const { questionSetId, questionSetVersion } = last;
  const screeningId = await insertScreening(tx, {
    ...{ ...of, occasion: 'during_session', questionSetId, questionSetVersion, answers: {} },
    ...{ evaluation, takenBy: userId },
  });
  const findings = await insertFindings(tx, { ...of, screeningId }, score.findings);
  await refer(tx, ctx, { clientId, screeningId, findings });
  return screeningId;
}

/** What the client's screenings so far settled, the oldest first. */
async function standingFacts(
  tx: EntityManager,
  of: { studioId: string; clientId: string },
): Promise<Facts | undefined> {
  let facts: Facts | undefined;
  for (const { questionSetId, questionSetVersion, answers } of await listAnswered(tx, of)) {
    const set = findQuestionSet(questionSetId, questionSetVersion);
    if (set) facts = factsFrom(set, answers, facts);
  }
  return facts;
}

/**
 * A finding with the same answers as before is dealt with where it was raised first, cleared or not. But who says
 * again what is urgent is taken at their word again.
 */
function isRaisedAnew(finding: Finding, answers: Answers): boolean {
  if (finding.result !== 'raised') return false;
  const saidAgain = finding.because.some(({ fact }) => answers[fact] !== undefined);
  return !finding.unchanged || (isUrgent(finding.route) && saidAgain);
}

import type { Activity } from '@studio/clinical-flags';
import type { SqlRunner } from '@studio/database';
import type { EntityManager } from 'typeorm';
import { findPermission } from './find-permission.js';
import { NotPermitted } from './screenings.errors.js';

export { clearFindings } from './clear-findings.js';
export { answerInWords, answersOfScreening, givenAnswers, optionsOf, questionText } from './given-answers.js';
export { ClearRequest, QuestionSetResponse } from './screenings.dto.js';
export { AnswersInvalid } from './screenings.errors.js';
export { noticesFor } from './notice-for.js';
export { requireInUse } from './require-in-use.js';
export { screen, screenByClinician } from './screen.js';
export { findPermission };

/** To book asks the same as to ride, but a client who was never screened may be booked: the intake comes after. */
export type Asked = Activity | 'booking';

/**
 * The one question every other slice asks: may this be done with this client now?
 *
 * @returns the id of the newest screening; null when a client who was never screened is booked
 * @throws NotPermitted when a finding that is not cleared bars it, an open question does, or no screening was taken
 */
export async function requirePermission<What extends Asked>(
  tx: EntityManager,
  key: { studioId: string; clientId: string },
  what: What,
): Promise<What extends 'booking' ? string | null : string> {
  type Allowed = What extends 'booking' ? string | null : string;
  const inForce = await findPermission(tx, key);
  if (!inForce) {
    if (what === 'booking') return null as Allowed;
    throw new NotPermitted('Screen the client first.');
  }
  const { permission, standing, newest, openFacts } = inForce;
  const asked: Asked = what;
  const activity: Activity = asked === 'booking' ? 'riding' : asked;
  if (!permission.barred.includes(activity)) return newest.id;
  const barring = standing.filter(({ finding }) => finding.permission.barred.includes(activity));
  const findingIds = barring.map(({ id }) => id);
  // The front desk books, and reads this: ids, and nothing of what was found or asked.
  if (what === 'booking') throw new NotPermitted('Not before clearance.', { findingIds });
  throw new NotPermitted(
    'A finding that is not cleared bars it. Record a clearance with its reason, or have the open questions answered.',
    {
      screeningId: newest.id,
      findingIds,
      rules: [...new Set(barring.map(({ finding }) => finding.ruleId))],
      openQuestions: [...openFacts],
    },
  );
}

/** The same as a plain answer, for who only leaves something out: no to a client who was never screened. */
export async function isPermitted(
  sql: SqlRunner,
  key: { studioId: string; clientId: string },
  activity: Activity,
): Promise<boolean> {
  const inForce = await findPermission(sql, key);
  return inForce !== null && !inForce.permission.barred.includes(activity);
}

import type { Activity } from '@studio/clinical-flags';
import type { EntityManager } from 'typeorm';
import { permissionInForce } from './permission-in-force.js';
import { NotPermitted } from './screenings.errors.js';
import { listScreenings } from './screenings.queries.js';

export { QuestionSetResponse } from './screenings.dto.js';
export { screen } from './screen.js';

/**
 * The one question every other slice asks: may this be done with this client now?
 *
 * @returns the id of the screening that allows it
 * @throws NotPermitted when no screening was taken, or a finding that is not cleared bars the activity
 */
export async function requirePermission(
  tx: EntityManager,
  key: { studioId: string; clientId: string },
  activity: Activity,
): Promise<string> {
  const inForce = permissionInForce(await listScreenings(tx, key));
  if (!inForce) throw new NotPermitted('Screen the client first.');
  const { permission, screening } = inForce;
  if (permission.barred.includes(activity)) {
    const { findings, openFacts } = screening.result;
    throw new NotPermitted(
      'A finding that is not cleared bars it. Record a clearance with its reason, or have the open questions answered.',
      {
        screeningId: screening.id,
        rules: findings
          .filter(({ result, permission: own }) => result === 'raised' && own.barred.includes(activity))
          .map(({ ruleId }) => ruleId),
        openQuestions: [...openFacts],
      },
    );
  }
  return screening.id;
}

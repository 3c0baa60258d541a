import type { Activity } from '@studio/clinical-flags';
import type { EntityManager } from 'typeorm';
import { permissionInForce } from './permission-in-force.js';
import { NotPermitted } from './screenings.errors.js';
import { findNewestScreening, listRaisedFindings } from './screenings.queries.js';

export { clearFindings } from './clear-findings.js';
export { givenAnswers } from './given-answers.js';
export { ClearRequest, QuestionSetResponse } from './screenings.dto.js';
export { screen } from './screen.js';

/** `booking` asks only that nothing raised forbids every activity: a client is often booked before being screened. */
export type Asked = Activity | 'booking';

/**
 * The one question every other slice asks: may this be done with this client now?
 *
 * @returns the id of the newest screening; null when a client who was never screened is booked
 * @throws NotPermitted when a finding that is not cleared bars it, or (but for booking) an open question does or no
 *   screening was taken
 */
export async function requirePermission<What extends Asked>(
  tx: EntityManager,
  key: { studioId: string; clientId: string },
  what: What,
): Promise<What extends 'booking' ? string | null : string> {
  type Allowed = What extends 'booking' ? string | null : string;
  const inForce = permissionInForce(await listRaisedFindings(tx, key), await findNewestScreening(tx, key));
  if (what === 'booking') {
    const barring = inForce?.standing.filter(({ finding }) => finding.permission.level === 'none') ?? [];
    // The front desk reads this: ids, and nothing of what was found.
    if (barring.length > 0) {
      throw new NotPermitted('Not before a clearance.', { findingIds: barring.map(({ id }) => id) });
    }
    return (inForce?.newest.id ?? null) as Allowed;
  }
  if (!inForce) throw new NotPermitted('Screen the client first.');
  const { permission, standing, newest } = inForce;
  if (permission.barred.includes(what)) {
    const barring = standing.filter(({ finding }) => finding.permission.barred.includes(what));
    throw new NotPermitted(
      'A finding that is not cleared bars it. Record a clearance with its reason, or have the open questions answered.',
      {
        screeningId: newest.id,
        findingIds: barring.map(({ id }) => id),
        rules: [...new Set(barring.map(({ finding }) => finding.ruleId))],
        openQuestions: [...newest.result.openFacts],
      },
    );
  }
  return newest.id;
}

import { routes, type Finding } from '@studio/clinical-flags';
import { announce, orderJob, recordAudit, studioClock, type TenantContext } from '@studio/database';
import type { EntityManager } from 'typeorm';
import { openCaseTask } from './case-task.js';
import { deadlineOf, isUrgent, needsClinician } from './deadlines.js';
import * as queries from './referrals.queries.js';

/** An urgent complaint reported again within these hours rings no second bell. */
const ringAgainAfterHours = 12;

/**
 * Open a referral case for what a screening raised and a clinician should see. A finding that a case nobody has
 * answered yet is about already joins that case. What is urgent is told to the studio at once.
 */
export async function refer(
  tx: EntityManager,
  ctx: TenantContext,
  screening: {
    clientId: string;
    screeningId: string;
    findings: readonly { readonly id: string; readonly finding: Pick<Finding, 'ruleId' | 'route'> }[];
  },
): Promise<void> {
  const { studioId } = ctx;
  const { clientId, screeningId } = screening;
  const needing = screening.findings.filter(({ finding }) => needsClinician(finding.route));
  if (needing.length === 0) return;

  const clock = await studioClock(tx, studioId);
  const waiting = await queries.listRulesWaiting(tx, { studioId, clientId });
  const caseOf = new Map(waiting.map(({ ruleId, referralId }) => [ruleId, referralId]));
  const fresh = needing.filter(({ finding }) => !caseOf.has(finding.ruleId));
  const joining = needing.filter(({ finding }) => caseOf.has(finding.ruleId));

  for (const { id: findingId, finding } of joining) {
    const referralId = caseOf.get(finding.ruleId) as string;
    await queries.insertReferralFindings(tx, { studioId, referralId }, [findingId]);
    if (isUrgent(finding.route)) {
      await ring(tx, { studioId, referralId, clientId, dueAt: deadlineOf(finding.route, clock) });
    }
  }
  if (fresh.length === 0) return;
  const route = routes.find((item) => fresh.some(({ finding }) => finding.route === item));
  if (route === undefined) throw new TypeError('a finding names no known route');
  const dueAt = deadlineOf(route, clock);
  const referralId = await queries.insertReferral(tx, { studioId, clientId, screeningId, route, dueAt });
  await queries.insertReferralFindings(
    tx,
    { studioId, referralId },
    fresh.map(({ id }) => id),
  );
  await recordAudit(tx, ctx, { action: 'referrals.open', recordId: referralId });
  await announce(tx, { studioId, type: 'referral.opened', subjectId: referralId });
  if (isUrgent(route)) await ring(tx, { studioId, referralId, clientId, dueAt });
}

async function ring(tx: EntityManager, of: Parameters<typeof openCaseTask>[1]): Promise<void> {
  const { studioId, referralId } = of;
  await openCaseTask(tx, of);
  if (!(await queries.markAlerted(tx, { studioId, referralId, notWithinHours: ringAgainAfterHours }))) return;
  await orderJob(tx, { studioId, job: 'alert-studio', payload: { referralId } });
}

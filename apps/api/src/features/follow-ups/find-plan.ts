import type { SqlRunner } from '@studio/database';
import { builtInPlans, type FollowUpPlan } from '@studio/follow-up-plans';
import { UnknownReference } from '../../http/problem.js';
import { listOwnPlans } from './plans.queries.js';

/**
 * A plan by its name, in its newest version: built in, or the studio's own.
 *
 * @throws UnknownReference naming the field of the request
 */
export async function requirePlan(
  sql: SqlRunner,
  studioId: string,
  planId: string,
  field = 'planId',
): Promise<FollowUpPlan> {
  const plan =
    builtInPlans.find(({ id }) => id === planId) ?? (await listOwnPlans(sql, { studioId, planId }))[0];
  if (!plan) throw new UnknownReference(field);
  return plan;
}

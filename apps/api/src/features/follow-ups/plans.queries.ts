import { FollowUpPlanRow, type SqlRunner } from '@studio/database';
import type { FollowUpPlan } from '@studio/follow-up-plans';
import type { EntityManager } from 'typeorm';

/** The newest version of each of the studio's own plans, or of one. */
export function listOwnPlans(
  sql: SqlRunner,
  of: { studioId: string; planId: string | null },
): Promise<FollowUpPlan[]> {
  return sql.query<FollowUpPlan[]>(
    `SELECT DISTINCT ON (plan_id) plan_id AS id, version, name, steps FROM follow_up_plans
      WHERE studio_id = $1 AND ($2::text IS NULL OR plan_id = $2)
      ORDER BY plan_id, version DESC`,
    [of.studioId, of.planId],
  );
}

export async function insertPlan(
  tx: EntityManager,
  { id, ...plan }: FollowUpPlan & { studioId: string; createdBy: string },
): Promise<string> {
  const { identifiers } = await tx.insert(FollowUpPlanRow, { ...plan, planId: id, steps: [...plan.steps] });
  return (identifiers[0] as { id: string }).id;
}

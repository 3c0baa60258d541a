import type { SqlRunner } from '@studio/database';
import { permissionInForce, type PermissionInForce } from './permission-in-force.js';
import { listStanding } from './screenings.queries.js';

/** What a client may do now; null for one who was never screened. */
export async function findPermission(
  sql: SqlRunner,
  of: { studioId: string; clientId: string },
): Promise<PermissionInForce | null> {
  const { raised, newest } = await listStanding(sql, of);
  const [first, ...others] = newest;
  return first ? permissionInForce(raised, [first, ...others]) : null;
}

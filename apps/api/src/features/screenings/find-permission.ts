import type { SqlRunner } from '@studio/database';
import { permissionInForce, type PermissionInForce } from './permission-in-force.js';
import { listNewestScreenings, listRaisedFindings } from './screenings.queries.js';

/** What a client may do now; null for one who was never screened. */
export async function findPermission(
  sql: SqlRunner,
  of: { studioId: string; clientId: string },
): Promise<PermissionInForce | null> {
  const [newest, ...older] = await listNewestScreenings(sql, of);
  if (!newest) return null;
  return permissionInForce(await listRaisedFindings(sql, of), [newest, ...older]);
}

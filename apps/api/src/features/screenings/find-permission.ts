import type { SqlRunner } from '@studio/database';
import { permissionInForce, type PermissionInForce } from './permission-in-force.js';
import { listStanding } from './screenings.queries.js';

/** What a client may do now; null for one who was never screened. */
export async function findPermission(
  sql: SqlRunner,
  { studioId, clientId }: { studioId: string; clientId: string },
): Promise<PermissionInForce | null> {
  const inForce = await findPermissions(sql, { studioId, clientIds: [clientId] });
  return inForce.get(clientId) ?? null;
}

/** The same of many, in one query. */
export async function findPermissions(
  sql: SqlRunner,
  of: { studioId: string; clientIds: readonly string[] },
): Promise<ReadonlyMap<string, PermissionInForce | null>> {
  const standing = await listStanding(sql, of);
  return new Map(
    standing.map(({ clientId, raised, newest: [newest, ...others] }) => [
      clientId,
      newest ? permissionInForce(raised, [newest, ...others]) : null,
    ]),
  );
}

import { deskNotice, type DeskNotice } from '@studio/clinical-flags';
import type { SqlRunner } from '@studio/database';
import { findPermissions } from './find-permission.js';

type Notice = DeskNotice | 'not_screened';

/** The permission in force as the front desk is told it. */
export async function noticeFor(
  sql: SqlRunner,
  { studioId, clientId }: { studioId: string; clientId: string },
): Promise<Notice> {
  const notices = await noticesFor(sql, { studioId, clientIds: [clientId] });
  return notices.get(clientId) ?? 'not_screened';
}

/** The same of many. */
export async function noticesFor(
  sql: SqlRunner,
  of: { studioId: string; clientIds: readonly string[] },
): Promise<ReadonlyMap<string, Notice>> {
  const permissions = await findPermissions(sql, of);
  return new Map(
    [...permissions].map(([clientId, inForce]) => [clientId, inForce ? deskNotice(inForce) : 'not_screened']),
  );
}

import { deskNotice, type DeskNotice } from '@studio/clinical-flags';
import type { SqlRunner } from '@studio/database';
import { findPermission } from './find-permission.js';

/** The permission in force as the front desk is told it. */
export async function noticeFor(
  sql: SqlRunner,
  key: { studioId: string; clientId: string },
): Promise<DeskNotice | 'not_screened'> {
  const inForce = await findPermission(sql, key);
  return inForce ? deskNotice(inForce) : 'not_screened';
}

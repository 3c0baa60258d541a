import type { SqlRunner } from '@studio/database';
import { findOffsetInForce } from './model-check.queries.js';

/** What the owner had added to every computed saddle change, mm; 0 when nothing was. */
export async function saddleOffsetInForceMm(sql: SqlRunner, studioId: string): Promise<number> {
  return (await findOffsetInForce(sql, studioId)).offsetMm;
}

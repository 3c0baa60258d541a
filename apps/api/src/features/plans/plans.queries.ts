import { opened, Plan, type SqlRunner, utcText as utc } from '@studio/database';
import { IsNull, type EntityManager } from 'typeorm';
import type { PlanRecord } from './plan-record.js';

interface Key {
  readonly studioId: string;
  readonly id: string;
}

const columns = `id, fit_session_id AS "fitSessionId", kind, side, inputs, foot_pitch_from AS "footPitchFrom", added, result,
  formula_version AS "formulaVersion", saddle_offset_mm AS "saddleOffsetMm", planned_by AS "plannedBy",
  ${utc('created_at')} AS "plannedAt", chosen_option AS "chosenOption", chosen_because AS "chosenBecause",
  chosen_by AS "chosenBy", ${utc('chosen_at')} AS "chosenAt"`;

export async function insertPlan(
  tx: EntityManager,
  row: Pick<
    Plan,
    | 'studioId'
    | 'fitSessionId'
    | 'kind'
    | 'side'
    | 'inputs'
    | 'footPitchFrom'
    | 'added'
    | 'result'
    | 'formulaVersion'
    | 'saddleOffsetMm'
    | 'plannedBy'
  >,
): Promise<string> {
  const { identifiers } = await tx.insert(Plan, row);
  return (identifiers[0] as { id: string }).id;
}

export async function findPlan(sql: SqlRunner, key: Key): Promise<PlanRecord | null> {
  const rows = await sql.query<PlanRecord[]>(
    `SELECT ${columns} FROM plans WHERE studio_id = $1 AND id = $2`,
    [key.studioId, key.id],
  );
  return opened(rows, 'chosenBecause')[0] ?? null;
}

export async function listPlans(
  sql: SqlRunner,
  page: { studioId: string; fitSessionId: string; after: string | null; limit: number },
): Promise<PlanRecord[]> {
  const rows = await sql.query<PlanRecord[]>(
    `SELECT ${columns} FROM plans
      WHERE studio_id = $1 AND fit_session_id = $2 AND ($3::uuid IS NULL OR id > $3) ORDER BY id LIMIT $4`,
    [page.studioId, page.fitSessionId, page.after, page.limit],
  );
  return opened(rows, 'chosenBecause');
}

/** Of each kind and side the newest plan, with what was chosen of it. */
export async function listChosenPlans(
  sql: SqlRunner,
  key: { studioId: string; fitSessionId: string },
): Promise<PlanRecord[]> {
  const rows = await sql.query<PlanRecord[]>(
    `SELECT * FROM (
       SELECT DISTINCT ON (kind, side) ${columns} FROM plans
        WHERE studio_id = $1 AND fit_session_id = $2 ORDER BY kind, side, id DESC) newest
      WHERE "chosenOption" IS NOT NULL ORDER BY id`,
    [key.studioId, key.fitSessionId],
  );
  return opened(rows, 'chosenBecause');
}

/** Tells whether nothing had been chosen before. */
export async function chooseOption(
  tx: EntityManager,
  key: Key,
  choice: { option: string; because: string; chosenBy: string },
): Promise<boolean> {
  const { affected } = await tx.update(
    Plan,
    { ...key, chosenOption: IsNull() },
    {
      chosenOption: choice.option,
      chosenBecause: choice.because,
      chosenBy: choice.chosenBy,
      chosenAt: () => 'app_now()',
    },
  );
  return affected === 1;
}

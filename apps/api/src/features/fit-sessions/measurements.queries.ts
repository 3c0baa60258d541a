import { Measurement, opened, utcText, type SqlRunner } from '@studio/database';
import type { EntityManager } from 'typeorm';
import type { MeasurementResponse } from './measurements.dto.js';

/** Property of the answer to its column, of the table as `p`. */
export const measurementColumns: Readonly<Record<keyof MeasurementResponse, string>> = {
  id: 'p.id',
  kind: 'p.kind',
  side: 'p.side',
  method: 'p.method',
  repeats: 'p.repeats',
  unit: 'p.unit',
  typed: 'p.typed',
  mean: 'p.mean',
  error: 'p.error',
  warning: 'p.warning',
  takenBy: 'p.taken_by',
  takenAt: utcText('p.taken_at'),
  corrects: 'p.corrects_id',
  withdrawal: `CASE WHEN p.withdrawn_at IS NOT NULL THEN json_build_object(
    'at', ${utcText('p.withdrawn_at')}, 'by', p.withdrawn_by, 'reason', p.withdrawal_reason) END`,
};

const columns = Object.entries(measurementColumns)
  .map(([property, column]) => `${column} AS "${property}"`)
  .join(', ');

export async function findMeasurement(
  sql: SqlRunner,
  key: { studioId: string; fitSessionId: string; id: string },
): Promise<MeasurementResponse | null> {
  const rows = await sql.query<MeasurementResponse[]>(
    `SELECT ${columns} FROM measurements p WHERE p.studio_id = $1 AND p.fit_session_id = $2 AND p.id = $3`,
    [key.studioId, key.fitSessionId, key.id],
  );
  return opened(rows, 'reason')[0] ?? null;
}

export async function insertMeasurement(
  tx: EntityManager,
  row: Partial<Measurement> & { studioId: string; fitSessionId: string },
): Promise<MeasurementResponse> {
  const { studioId, fitSessionId } = row;
  const { identifiers } = await tx.insert(Measurement, row);
  const { id } = identifiers[0] as { id: string };
  return (await findMeasurement(tx, { studioId, fitSessionId, id })) as MeasurementResponse;
}

export async function withdrawMeasurement(
  tx: EntityManager,
  key: { studioId: string; id: string },
  withdrawal: { withdrawnAt: Date; withdrawnBy: string; withdrawalReason: string },
): Promise<void> {
  await tx.update(Measurement, key, withdrawal);
}

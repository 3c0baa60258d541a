import { recordAudit, type Measurement } from '@studio/database';
import { FitMathError } from '@studio/fit-math';
import { ApiError, ImpossibleGeometry, type FieldProblem } from '../../../http/problem.js';
import { MeasurementsRefused } from '../fit-sessions.errors.js';
import {
  MeasurementRequest,
  MeasurementsRequest,
  type MeasurementResponse,
  type MeasurementsResponse,
} from '../measurements.dto.js';
import { insertMeasurement } from '../measurements.queries.js';
import { readReadings, type Readings } from '../read-readings.js';
import type { SessionWrite, Writer } from './session-write.js';

export const addMeasurement: SessionWrite<MeasurementRequest, MeasurementResponse> = {
  kind: 'add_measurement',
  payload: MeasurementRequest,
  apply: async (tx, by, request) => {
    const row = measurementRow(by, request, readReadings(request));
    const measurement = await insertMeasurement(tx, { ...row, id: by.id });
    await recordAudit(tx, by.ctx, {
      action: 'fit-sessions.measure',
      recordId: by.session.id,
      fields: [request.kind],
    });
    return measurement;
  },
};

/** All or none: the faults of every item are told together. */
export const addMeasurements: SessionWrite<MeasurementsRequest, MeasurementsResponse> = {
  kind: 'add_measurements',
  payload: MeasurementsRequest,
  apply: async (tx, by, { items }) => {
    const read = items.map((item, place) => attempt(item, place));
    const problems = read.flatMap((result) => ('problems' in result ? result.problems : []));
    if (problems.length > 0) throw new MeasurementsRefused(problems);
    const measurements: MeasurementResponse[] = [];
    for (const [place, request] of items.entries()) {
      const readings = (read[place] as { readings: Readings }).readings;
      measurements.push(await insertMeasurement(tx, measurementRow(by, request, readings)));
    }
    await recordAudit(tx, by.ctx, {
      action: 'fit-sessions.measure',
      recordId: by.session.id,
      fields: [...new Set(items.map(({ kind }) => kind))],
    });
    return { items: measurements };
  },
};

export const measurementRow = (
  { ctx, session, at }: Writer,
  { kind, side, method, takenAt }: MeasurementRequest,
  readings: Readings,
): Partial<Measurement> & { studioId: string; fitSessionId: string } => ({
  ...{ studioId: ctx.studioId, fitSessionId: session.id, kind, side: side ?? null, method, ...readings },
  takenBy: ctx.userId as string,
  takenAt: takenAt === undefined ? at : new Date(takenAt),
});

function attempt(
  item: MeasurementRequest,
  place: number,
): { readings: Readings } | { problems: FieldProblem[] } {
  try {
    return { readings: readReadings(item) };
  } catch (error) {
    const known = error instanceof FitMathError ? new ImpossibleGeometry(error) : error;
    if (!(known instanceof ApiError)) throw error;
    const problems = known.extra['errors'] as FieldProblem[];
    return {
      problems: problems.map(({ field, message }) => ({ field: `items.${place}.${field}`, message })),
    };
  }
}

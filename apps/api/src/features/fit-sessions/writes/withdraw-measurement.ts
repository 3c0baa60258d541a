import { recordAudit } from '@studio/database';
import type { EntityManager } from 'typeorm';
import { UuidField } from '../../../http/fields.js';
import { found, InvalidRequest } from '../../../http/problem.js';
import { ChangedMeanwhile } from '../fit-sessions.errors.js';
import { CorrectionRequest, WithdrawalRequest, type MeasurementResponse } from '../measurements.dto.js';
import {
  findMeasurement,
  insertMeasurement,
  withdrawMeasurement as withdraw,
} from '../measurements.queries.js';
import { readReadings } from '../read-readings.js';
import { measurementRow } from './add-measurements.js';
import type { SessionWrite, Writer } from './session-write.js';

export class WithdrawMeasurement extends WithdrawalRequest {
  @UuidField()
  measurementId: string;
}

export class CorrectMeasurement extends CorrectionRequest {
  @UuidField()
  measurementId: string;
}

export const withdrawMeasurement: SessionWrite<WithdrawMeasurement, MeasurementResponse> = {
  kind: 'withdraw_measurement',
  payload: WithdrawMeasurement,
  apply: async (tx, by, { measurementId, reason }) => {
    const { kind } = await takeBack(tx, by, measurementId, reason);
    await recordAudit(tx, by.ctx, {
      action: 'fit-sessions.withdraw-measurement',
      recordId: by.session.id,
      fields: [kind],
    });
    return found(await findMeasurement(tx, keyOf(by, measurementId)));
  },
};

/** Another measurement of the same kind stands in place of it; the side may have been the fault. */
export const correctMeasurement: SessionWrite<CorrectMeasurement, MeasurementResponse> = {
  kind: 'correct_measurement',
  payload: CorrectMeasurement,
  apply: async (tx, by, { measurementId, reason, ...request }) => {
    const { kind } = await takeBack(tx, by, measurementId, reason);
    if (kind !== request.kind) {
      throw new InvalidRequest([{ field: 'kind', message: `must be ${kind}, like what is corrected` }]);
    }
    const measurement = await insertMeasurement(tx, {
      ...measurementRow(by, request, readReadings(request)),
      id: by.id,
      correctsId: measurementId,
    });
    await recordAudit(tx, by.ctx, {
      action: 'fit-sessions.correct-measurement',
      recordId: by.session.id,
      fields: [kind],
    });
    return measurement;
  },
};

/** A measurement has two versions: as taken, and withdrawn. */
async function takeBack(
  tx: EntityManager,
  by: Writer,
  id: string,
  withdrawalReason: string,
): Promise<MeasurementResponse> {
  const measurement = found(await findMeasurement(tx, keyOf(by, id)));
  if (measurement.withdrawal !== null) throw new ChangedMeanwhile(2, measurement);
  const withdrawnBy = by.ctx.userId as string;
  const key = { studioId: by.ctx.studioId, id };
  await withdraw(tx, key, { withdrawnAt: by.at, withdrawnBy, withdrawalReason });
  return measurement;
}

const keyOf = ({ ctx, session }: Writer, id: string): Parameters<typeof findMeasurement>[1] => ({
  studioId: ctx.studioId,
  fitSessionId: session.id,
  id,
});

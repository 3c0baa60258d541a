import { recordAudit } from '@studio/database';
import {
  measuringMethods,
  positionFieldIds,
  type MeasuringMethod,
  type PositionFieldId,
} from '@studio/fit-math';
import { EnumField } from '../../../http/fields.js';
import { found, InvalidRequest } from '../../../http/problem.js';
import { findPositionOfClient, findStandingPosition, insertPosition } from '../positions.queries.js';
import {
  PositionRequest,
  positionStages,
  withWhatIsMissing,
  type PositionOfClientResponse,
  type PositionStage,
} from '../positions.dto.js';
import { nextVersion } from './based-on.js';
import type { SessionWrite } from './session-write.js';

export class PutPosition extends PositionRequest {
  @EnumField(positionStages)
  stage: PositionStage;
}

/** A new version of a stage's position, whole: what it does not name is not measured. */
export const putPosition: SessionWrite<PutPosition, PositionOfClientResponse> = {
  kind: 'put_position',
  payload: PutPosition,
  apply: async (
    tx,
    { ctx, session, id, at, deviceId },
    { stage, basedOn, method, methods = {}, takenAt, ...given },
  ) => {
    const { studioId } = ctx;
    const { id: fitSessionId, clientId } = session;
    const measured = positionFieldIds.filter((field) => given[field] != null);
    if (measured.length === 0 && given.hardwareLeft == null && given.hardwareRight == null) {
      throw new InvalidRequest([{ field: 'saddleHeightMm', message: 'or another figure must be measured' }]);
    }
    checkMethods(methods, measured);
    const standing = await findStandingPosition(tx, { studioId, fitSessionId, stage });
    const find = async (key: string): Promise<PositionOfClientResponse> =>
      withWhatIsMissing(found(await findPositionOfClient(tx, { studioId, clientId, id: key })));
    const version = nextVersion(standing, basedOn, deviceId, standing && (await find(standing.id)));
    await insertPosition(tx, {
      ...given,
      ...{ studioId, id, fitSessionId, stage, version, deviceId },
      takenBy: ctx.userId,
      takenAt: takenAt === undefined ? at : new Date(takenAt),
      methods: Object.fromEntries(
        measured.flatMap((field) => {
          const by = methods[field] ?? method;
          return by === undefined ? [] : [[field, by]];
        }),
      ),
    });
    await recordAudit(tx, ctx, {
      action: 'fit-sessions.write',
      recordId: fitSessionId,
      fields: [`position_${stage}`],
    });
    return find(id);
  },
};

function checkMethods(methods: Record<string, unknown>, measured: readonly PositionFieldId[]): void {
  const problems = Object.entries(methods).flatMap(([field, by]) => {
    if (!measured.some((id) => id === field)) {
      return [{ field: `methods.${field}`, message: 'names no figure that is measured here' }];
    }
    return measuringMethods.includes(by as MeasuringMethod)
      ? []
      : [{ field: `methods.${field}`, message: `must be one of ${measuringMethods.join(', ')}` }];
  });
  if (problems.length > 0) throw new InvalidRequest(problems);
}

import { recordAudit } from '@studio/database';
import {
  measuringMethods,
  positionFieldIds,
  type MeasuringMethod,
  type PositionFieldId,
} from '@studio/fit-math';
import { found, InvalidRequest } from '../../../http/problem.js';
import { findPositionOfClient, findStandingPosition, insertPosition } from '../positions.queries.js';
import {
  withWhatIsMissing,
  type PositionOfClientResponse,
  type PositionRequest,
  type PositionStage,
} from '../positions.dto.js';
import { nextVersion } from './based-on.js';
import type { Write } from './session-write.js';

/** A new version of a stage's position, whole: what it does not name is not measured. */
export const putPosition: Write<
  PositionRequest & { stage: PositionStage },
  PositionOfClientResponse
> = async (
  tx,
  { ctx, session, id, deviceId },
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
  const version = await nextVersion(standing, basedOn, deviceId, () => find(standing?.id as string));
  const recordId = await insertPosition(tx, {
    ...given,
    ...(id !== undefined && { id }),
    ...(takenAt !== undefined && { takenAt: new Date(takenAt) }),
    studioId,
    fitSessionId,
    stage,
    version,
    deviceId,
    takenBy: ctx.userId,
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
  return find(recordId);
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

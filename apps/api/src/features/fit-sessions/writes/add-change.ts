import { recordAudit } from '@studio/database';
import { positionFields } from '@studio/fit-math';
import { UuidField } from '../../../http/fields.js';
import { found, InvalidRequest, type FieldProblem } from '../../../http/problem.js';
import { requirePermission } from '../../screenings/index.js';
import { activitiesOf } from '../change-permissions.js';
import {
  ChangeRequest,
  RiderResponseRequest,
  type ChangeItem,
  type ChangeResponse,
  type PainAtSite,
} from '../changes.dto.js';
import { findChange, insertChange, putResponse } from '../changes.queries.js';
import { SeveralNotMarked } from '../fit-sessions.errors.js';
import { nextVersion } from './based-on.js';
import type { SessionWrite, Writer } from './session-write.js';

export class PutChangeResponse extends RiderResponseRequest {
  @UuidField()
  changeId: string;
}

/** @throws NotPermitted when a finding that is not cleared bars this kind of change */
export const addChange: SessionWrite<ChangeRequest, ChangeResponse> = {
  kind: 'add_change',
  payload: ChangeRequest,
  apply: async (tx, by, { items, severalAtOnce = false, why, madeAt }) => {
    const { ctx, session, id } = by;
    const problems = items.flatMap(itemProblems);
    if (problems.length > 0) throw new InvalidRequest(problems);
    if (severalAtOnce !== items.length > 1) throw new SeveralNotMarked(items.length > 1);
    for (const activity of activitiesOf(items)) {
      await requirePermission(tx, { studioId: ctx.studioId, clientId: session.clientId }, activity);
    }
    await insertChange(tx, {
      ...{ studioId: ctx.studioId, id, fitSessionId: session.id, items, severalAtOnce, why },
      madeBy: ctx.userId as string,
      madeAt: madeAt === undefined ? by.at : new Date(madeAt),
    });
    await recordAudit(tx, ctx, {
      action: 'fit-sessions.change',
      recordId: session.id,
      fields: items.map(({ what }) => what),
    });
    return changeOf(tx, by, id);
  },
};

export const putChangeResponse: SessionWrite<PutChangeResponse, ChangeResponse> = {
  kind: 'put_change_response',
  payload: PutChangeResponse,
  apply: async (tx, by, { changeId, basedOn, ...given }) => {
    const { ctx, session, deviceId } = by;
    const { comfort = null, pains = null, remarks = null, powerW = null, heartRateBpm = null } = given;
    const change = found(
      await findChange(tx, { studioId: ctx.studioId, fitSessionId: session.id, id: changeId }),
    );
    if ([comfort, pains, remarks, powerW, heartRateBpm].every((part) => part === null)) {
      throw new InvalidRequest([{ field: 'comfort', message: 'or another part of the response is needed' }]);
    }
    if (pains !== null) checkSites(pains);
    const { response: standing, responseDeviceId } = change;
    const version = nextVersion(
      standing && { version: standing.version, deviceId: responseDeviceId },
      basedOn,
      deviceId,
      standing,
    );
    await putResponse(
      tx,
      { studioId: ctx.studioId, id: changeId },
      {
        ...{ comfort, pains, remarks, powerW, heartRateBpm, version },
        at: by.at.toISOString(),
        responseDeviceId: deviceId,
      },
    );
    await recordAudit(tx, ctx, { action: 'fit-sessions.response', recordId: session.id });
    return changeOf(tx, by, changeId);
  },
};

async function changeOf(
  tx: Parameters<typeof findChange>[0],
  { ctx, session }: Writer,
  id: string,
): Promise<ChangeResponse> {
  const row = found(await findChange(tx, { studioId: ctx.studioId, fitSessionId: session.id, id }));
  const { responseDeviceId, ...change } = row;
  return change;
}

function itemProblems(item: ChangeItem, place: number): FieldProblem[] {
  const { what, from, to, fromPart, toPart } = item;
  const at = (field: keyof ChangeItem, message: string): FieldProblem => ({
    field: `items.${place}.${field}`,
    message,
  });
  const field = positionFields.find(({ id }) => id === what);
  if (!field) {
    return [
      ...(toPart === undefined ? [at('toPart', 'is needed for a part')] : []),
      ...(from != null ? [at('from', 'must be left out for a part')] : []),
      ...(to !== undefined ? [at('to', 'must be left out for a part')] : []),
    ];
  }
  const [least, greatest] = field.possible;
  const outside = (value: number): boolean => value < least || value > greatest;
  const range = `must be from ${least} to ${greatest} ${field.unit}`;
  return [
    ...(to === undefined ? [at('to', 'is needed for a figure')] : outside(to) ? [at('to', range)] : []),
    ...(from != null && outside(from) ? [at('from', range)] : []),
    ...(fromPart != null ? [at('fromPart', 'must be left out for a figure')] : []),
    ...(toPart !== undefined ? [at('toPart', 'must be left out for a figure')] : []),
  ];
}

function checkSites(pains: readonly PainAtSite[]): void {
  const twice = pains.findIndex(({ site }, place) => pains.findIndex((pain) => pain.site === site) < place);
  if (twice >= 0) {
    throw new InvalidRequest([{ field: `pains.${twice}.site`, message: 'must not be named twice' }]);
  }
}

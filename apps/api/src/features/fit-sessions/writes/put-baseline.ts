import { recordAudit } from '@studio/database';
import { BaselineRequest, type BaselineResponse } from '../fit-sessions.dto.js';
import { findBaseline, putBaseline as put } from '../fit-sessions.queries.js';
import { nextVersion } from './based-on.js';
import type { SessionWrite } from './session-write.js';

export const putBaseline: SessionWrite<BaselineRequest, BaselineResponse> = {
  kind: 'put_baseline',
  payload: BaselineRequest,
  apply: async (tx, { ctx, session, deviceId }, { basedOn, ...report }) => {
    const key = { studioId: ctx.studioId, fitSessionId: session.id };
    const standing = await findBaseline(tx, key);
    const version = nextVersion(standing, basedOn, deviceId, standing && toBaseline(standing));
    await put(tx, { ...key, ...report, version, deviceId });
    await recordAudit(tx, ctx, { action: 'fit-sessions.write', recordId: session.id, fields: ['baseline'] });
    return toBaseline({ ...report, version });
  },
};

const toBaseline = ({
  pain,
  comfort,
  numbness,
  power20MinW,
  version,
}: BaselineResponse): BaselineResponse => ({
  pain,
  comfort,
  numbness,
  power20MinW,
  version,
});

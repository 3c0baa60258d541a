import { visitStages, type StageSpan, type VisitStage } from '@studio/database';
import { EnumField } from '../../../http/fields.js';
import { StopsBeforeStart, TimerState } from '../fit-sessions.errors.js';
import { PlaceRequest, TimerRequest, type PlaceResponse, type SpanResponse } from '../flow.dto.js';
import * as queries from '../flow.queries.js';
import { nextVersion } from './based-on.js';
import type { SessionWrite, Writer } from './session-write.js';

export class TimerOfStage extends TimerRequest {
  @EnumField(visitStages)
  stage: VisitStage;
}

export const startTimer: SessionWrite<TimerOfStage, SpanResponse> = {
  kind: 'start_timer',
  payload: TimerOfStage,
  apply: async (tx, by, { stage, at }) => {
    if (await queries.findRunningSpan(tx, ofStage(by, stage))) throw new TimerState('stop');
    const startedAt = at === undefined ? by.at : new Date(at);
    const startedBy = by.ctx.userId as string;
    await queries.insertSpan(tx, { ...ofStage(by, stage), id: by.id, startedAt, startedBy });
    return toSpan({ id: by.id, stage, startedAt, stoppedAt: null });
  },
};

export const stopTimer: SessionWrite<TimerOfStage, SpanResponse> = {
  kind: 'stop_timer',
  payload: TimerOfStage,
  apply: async (tx, by, { stage, at }) => {
    const span = await queries.findRunningSpan(tx, ofStage(by, stage));
    if (!span) throw new TimerState('start');
    const stoppedAt = at === undefined ? by.at : new Date(at);
    if (stoppedAt < span.startedAt) throw new StopsBeforeStart();
    const { studioId, id } = span;
    await queries.stopSpan(tx, { studioId, id }, { stoppedAt, stoppedBy: by.ctx.userId as string });
    return toSpan({ ...span, stoppedAt });
  },
};

export const putPlace: SessionWrite<PlaceRequest, PlaceResponse> = {
  kind: 'put_place',
  payload: PlaceRequest,
  apply: async (tx, { ctx, session, deviceId }, { stage, note = null, basedOn }) => {
    const { placeStage, placeNote, placeVersion, placeDeviceId } = session;
    const standing = placeStage && { stage: placeStage, note: placeNote, version: placeVersion };
    const version = nextVersion(
      standing && { ...standing, deviceId: placeDeviceId },
      basedOn,
      deviceId,
      standing,
    );
    await queries.putPlace(
      tx,
      { studioId: ctx.studioId, id: session.id },
      { stage, note, version, deviceId },
    );
    return { stage, note, version };
  },
};

const ofStage = (
  { ctx, session }: Writer,
  stage: VisitStage,
): { studioId: string; fitSessionId: string; stage: VisitStage } => ({
  studioId: ctx.studioId,
  fitSessionId: session.id,
  stage,
});

const toSpan = (span: Pick<StageSpan, 'id' | 'stage' | 'startedAt' | 'stoppedAt'>): SpanResponse => ({
  id: span.id,
  stage: span.stage,
  startedAt: span.startedAt.toISOString(),
  stoppedAt: span.stoppedAt?.toISOString() ?? null,
});

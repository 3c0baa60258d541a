import { Injectable } from '@nestjs/common';
import { recordAudit, TenantTransaction, type MotionRecording, type TenantContext } from '@studio/database';
import { analyseMotion, readMotionCsv, type Motion } from '@studio/fit-math';
import { createHash } from 'node:crypto';
import { pageOf, pageSize, type PageQuery } from '../../http/paging.js';
import { found, NotFound } from '../../http/problem.js';
import { whileOpen } from '../fit-sessions/index.js';
import type {
  ImportMotionRequest,
  MotionRecordingLine,
  MotionRecordingPage,
  MotionRecordingResponse,
} from './motion-recordings.dto.js';
import * as queries from './motion-recordings.queries.js';

@Injectable()
export class MotionRecordingsService {
  constructor(private readonly transaction: TenantTransaction) {}

  /** @throws ImpossibleGeometry naming the row and column at fault */
  async import(
    ctx: TenantContext,
    fitSessionId: string,
    { side, csv, film }: ImportMotionRequest,
  ): Promise<MotionRecordingResponse> {
    return whileOpen(this.transaction, ctx, fitSessionId, async (tx) => {
      const result = analyseMotion(readMotionCsv(csv), film);
      const recording = await queries.insertMotionRecording(tx, {
        ...{ studioId: ctx.studioId, fitSessionId, side, film, result },
        sha256: createHash('sha256').update(csv).digest('hex'),
        formulaVersion: result.formulaVersion,
        importedBy: ctx.userId as string,
      });
      await recordAudit(tx, ctx, { action: 'motion-recordings.import', recordId: recording.id });
      return toRecording(recording);
    });
  }

  async get(ctx: TenantContext, id: string): Promise<MotionRecordingResponse> {
    const key = { studioId: ctx.studioId, id };
    return toRecording(found(await this.transaction.run(ctx, (tx) => queries.findMotionRecording(tx, key))));
  }

  async list(ctx: TenantContext, fitSessionId: string, query: PageQuery): Promise<MotionRecordingPage> {
    const { studioId } = ctx;
    const limit = pageSize(query);
    const rows = await this.transaction.run(ctx, async (tx) => {
      if (!(await queries.sessionExists(tx, { studioId, id: fitSessionId }))) throw new NotFound();
      return queries.listMotionRecordings(tx, {
        ...{ studioId, fitSessionId, after: query.after ?? null, limit: limit + 1 },
      });
    });
    return pageOf(rows.map(toLine), limit);
  }
}

function toLine(recording: MotionRecording): MotionRecordingLine {
  const { id, fitSessionId, side, createdAt, importedBy, sha256, formulaVersion } = recording;
  const { turns, cadenceRpm, crankLengthFoundMm, straightest, rangeDeg, heelPosture, cautions } =
    recording.result as Motion;
  return {
    ...{ id, fitSessionId, side, importedAt: createdAt.toISOString(), importedBy, sha256, formulaVersion },
    ...{ turns, cadenceRpm, crankLengthFoundMm, straightest, rangeDeg, heelPosture, cautions },
  };
}

const toRecording = (recording: MotionRecording): MotionRecordingResponse => ({
  ...toLine(recording),
  samples: (recording.result as Motion).samples,
});

import { Injectable } from '@nestjs/common';
import { recordAudit, TenantTransaction, violates, type TenantContext } from '@studio/database';
import { agreementPlot } from '@studio/drawings';
import { NotFound, StaleVersion } from '../../http/problem.js';
import { DrawingResponse } from './drawing.dto.js';
import { modelCheck } from './model-check.js';
import type { ApplyOffsetRequest, ModelCheckResponse, SaddleOffsetResponse } from './model-check.dto.js';
import * as queries from './model-check.queries.js';

const mostOffsets = 200;

@Injectable()
export class ModelCheckService {
  constructor(private readonly transaction: TenantTransaction) {}

  async check(ctx: TenantContext): Promise<ModelCheckResponse> {
    const { predictions, inForce } = await this.found(ctx);
    return modelCheck(predictions, inForce);
  }

  /** @throws NotFound while there is nothing to draw */
  async drawing(ctx: TenantContext): Promise<DrawingResponse> {
    const { predictions, inForce } = await this.found(ctx);
    const { biasMm, lowerLimitMm, upperLimitMm } = modelCheck(predictions, inForce).overall;
    if (biasMm === null) throw new NotFound();
    const drawing = agreementPlot({
      title: 'Saddle change, computed and left',
      subtitle: 'by the formula alone, without an offset of the studio’s own',
      unit: 'mm',
      firstName: 'computed',
      secondName: 'left',
      pairs: predictions.map(({ predictedMm, leftMm }) => ({ first: predictedMm, second: leftMm })),
      bias: biasMm,
      limits: lowerLimitMm && upperLimitMm && { low: lowerLimitMm.value, high: upperLimitMm.value },
    });
    return DrawingResponse.of('agreement', drawing);
  }

  async offsets(ctx: TenantContext): Promise<SaddleOffsetResponse[]> {
    const page = { studioId: ctx.studioId, limit: mostOffsets };
    return this.transaction.read(ctx, (sql) => queries.listOffsets(sql, page));
  }

  /** @throws StaleVersion when another offset came into force in the meantime */
  async apply(ctx: TenantContext, request: ApplyOffsetRequest): Promise<SaddleOffsetResponse> {
    const { studioId } = ctx;
    const { offsetMm, because, replacesVersion } = request;
    try {
      return await this.transaction.runOnce(ctx, async (tx) => {
        const { version } = await queries.findOffsetInForce(tx, studioId);
        if (version !== replacesVersion) throw new StaleVersion();
        const recordId = await queries.insertOffset(tx, {
          studioId,
          version: version + 1,
          offsetMm,
          because,
          appliedBy: ctx.userId as string,
        });
        await recordAudit(tx, ctx, { action: 'saddle-offsets.apply', recordId, fields: ['offsetMm'] });
        return queries.findOffsetInForce(tx, studioId);
      });
    } catch (error) {
      throw violates(error, 'saddle_offsets_version_once') ? new StaleVersion() : error;
    }
  }

  private found(
    ctx: TenantContext,
  ): Promise<{ predictions: queries.Prediction[]; inForce: SaddleOffsetResponse }> {
    const { studioId } = ctx;
    return this.transaction.readFromReplica(ctx, async (sql) => {
      const [predictions, inForce] = await Promise.all([
        queries.listPredictions(sql, studioId),
        queries.findOffsetInForce(sql, studioId),
      ]);
      return { predictions, inForce };
    });
  }
}

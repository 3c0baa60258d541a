import { Injectable } from '@nestjs/common';
import { recordAudit, TenantTransaction, violates, type TenantContext } from '@studio/database';
import { StaleVersion } from '../../http/problem.js';
import { modelCheck } from './model-check.js';
import type { ApplyOffsetRequest, ModelCheckResponse, SaddleOffsetResponse } from './model-check.dto.js';
import * as queries from './model-check.queries.js';

const mostOffsets = 200;

@Injectable()
export class ModelCheckService {
  constructor(private readonly transaction: TenantTransaction) {}

  async check(ctx: TenantContext): Promise<ModelCheckResponse> {
    const { studioId } = ctx;
    const [predictions, inForce] = await this.transaction.read(ctx, (sql) =>
      Promise.all([queries.listPredictions(sql, studioId), queries.findOffsetInForce(sql, studioId)]),
    );
    return modelCheck(predictions, inForce);
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
      return await this.transaction.run(ctx, async (tx) => {
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
}

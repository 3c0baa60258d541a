import { Injectable } from '@nestjs/common';
import { recordAudit, TenantTransaction, verifyRecords, type TenantContext } from '@studio/database';
import { NotFound } from '../../http/problem.js';
import type { RecordSignatureResponse, VerificationResponse } from './record-signatures.dto.js';
import * as queries from './record-signatures.queries.js';

@Injectable()
export class RecordSignaturesService {
  constructor(private readonly transaction: TenantTransaction) {}

  async list(ctx: TenantContext, fitSessionId: string): Promise<RecordSignatureResponse[]> {
    const key = { studioId: ctx.studioId, fitSessionId };
    return this.transaction.run(ctx, async (tx) => {
      if (!(await queries.sessionExists(tx, key))) throw new NotFound();
      return queries.listSignatures(tx, key);
    });
  }

  async verify(ctx: TenantContext): Promise<VerificationResponse> {
    return this.transaction.run(ctx, async (tx) => {
      const verification = await verifyRecords(tx, ctx.studioId);
      await recordAudit(tx, ctx, { action: 'record-signatures.verify', recordId: ctx.studioId });
      return { intact: verification.broken.length === 0, ...verification };
    });
  }
}

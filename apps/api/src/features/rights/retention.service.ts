import { Injectable } from '@nestjs/common';
import { recordAudit, studioClock, TenantTransaction, type TenantContext } from '@studio/database';
import type { EntityManager } from 'typeorm';
import { StaleVersion } from '../../http/problem.js';
import { processingActivities, protection, type CountryId } from '@studio/retention';
import type { ProcessingRecordResponse } from './processing-record.dto.js';
import { countryRules, type ChooseRetentionRequest, type RetentionResponse } from './retention.dto.js';
import { findChoice, listOwners, putChoice } from './retention.queries.js';

@Injectable()
export class RetentionService {
  constructor(private readonly transaction: TenantTransaction) {}

  async get(ctx: TenantContext): Promise<RetentionResponse> {
    return this.transaction.run(ctx, (tx) => read(tx, ctx.studioId));
  }

  /** What is to be erased already keeps the day it was given. */
  async choose(
    ctx: TenantContext,
    version: number,
    { country, boundByHealthLaw }: ChooseRetentionRequest,
  ): Promise<RetentionResponse> {
    const { studioId } = ctx;
    return this.transaction.run(ctx, async (tx) => {
      if (!(await putChoice(tx, { studioId, country, boundByHealthLaw, version }))) throw new StaleVersion();
      await recordAudit(tx, ctx, { action: 'retention.choose', recordId: studioId });
      return read(tx, studioId);
    });
  }

  /** With the studio's name and owners; how long records are kept is told by what it chose. */
  async processingRecord({ studioId }: TenantContext): Promise<ProcessingRecordResponse> {
    return this.transaction.run({ studioId }, async (tx) => {
      const { name } = await studioClock(tx, studioId);
      const owners = await listOwners(tx, studioId);
      return {
        controller: name,
        contacts: owners.map(({ displayName, email }) => `Owner: ${displayName}, ${email}`),
        activities: processingActivities,
        protection,
      };
    });
  }
}

async function read(tx: EntityManager, studioId: string): Promise<RetentionResponse> {
  const choice = await findChoice(tx, studioId);
  return {
    country: (choice?.country ?? null) as CountryId | null,
    boundByHealthLaw: choice?.boundByHealthLaw ?? null,
    countries: countryRules(),
    version: choice?.version ?? 1,
  };
}

import { Injectable } from '@nestjs/common';
import { recordAudit, studioClock, TenantTransaction, type TenantContext } from '@studio/database';
import type { DrawingResponse } from './drawing.dto.js';
import { ComparisonNeedsChange } from './outcomes.errors.js';
import { powerAnswer } from './power-answer.js';
import type { OutcomeReviewResponse, PowerAnswerResponse } from './review.dto.js';
import { reviewCsv } from './review-csv.js';
import { reviewDrawings } from './review-drawings.js';
import { groupAndOthers, groupInWords, groupOf } from './review-group.js';
import { reviewPdf } from './review-pdf.js';
import { choosesByChange, type CompareQuery, type ReviewQuery } from './review-query.dto.js';
import { listReviewedSessions, type ReviewedSession } from './review.queries.js';
import { review } from './review.js';

const usualMarginPercent = 2;

@Injectable()
export class ReviewsService {
  constructor(private readonly transaction: TenantTransaction) {}

  /** @throws ComparisonNeedsChange */
  async review(ctx: TenantContext, query: CompareQuery): Promise<OutcomeReviewResponse> {
    return (await this.reviewed(ctx, query)).review;
  }

  async power(ctx: TenantContext, query: ReviewQuery): Promise<PowerAnswerResponse> {
    const sessions = await this.sessions(ctx, query, false);
    return powerAnswer(groupOf(sessions).sessions, {
      groupInWords: groupInWords(query),
      powerMarginPercent: query.powerMarginPercent ?? usualMarginPercent,
    });
  }

  async drawings(ctx: TenantContext, query: ReviewQuery): Promise<DrawingResponse[]> {
    const { review: found, sessions } = await this.reviewed(ctx, query);
    return reviewDrawings(found, sessions);
  }

  /** @throws ComparisonNeedsChange */
  async csv(ctx: TenantContext, query: CompareQuery): Promise<string> {
    const { review: found } = await this.reviewed(ctx, query);
    await this.recordExport(ctx, 'csv');
    return reviewCsv(found);
  }

  /** @throws ComparisonNeedsChange */
  async pdf(ctx: TenantContext, query: CompareQuery): Promise<Buffer> {
    const { review: found, sessions } = await this.reviewed(ctx, query);
    const { name, now } = await this.transaction.read(ctx, (sql) => studioClock(sql, ctx.studioId));
    await this.recordExport(ctx, 'pdf');
    return reviewPdf(found, sessions, { studio: name, madeAt: now });
  }

  private async reviewed(
    ctx: TenantContext,
    query: CompareQuery,
  ): Promise<{ review: OutcomeReviewResponse; sessions: readonly ReviewedSession[] }> {
    const withOthers = query.compareWith === 'others';
    if (withOthers && !choosesByChange(query)) throw new ComparisonNeedsChange();
    const { group, others } = groupAndOthers(await this.sessions(ctx, query, withOthers));
    const found = review(group, {
      groupInWords: groupInWords(query),
      powerMarginPercent: query.powerMarginPercent ?? usualMarginPercent,
      others: withOthers ? others : null,
    });
    return { review: found, sessions: group.sessions };
  }

  private sessions(ctx: TenantContext, query: ReviewQuery, withOthers: boolean): Promise<ReviewedSession[]> {
    return this.transaction.readFromReplica(ctx, (sql) =>
      listReviewedSessions(sql, { ...query, studioId: ctx.studioId, withOthers }),
    );
  }

  /** What leaves the house is written down. */
  private async recordExport(ctx: TenantContext, form: string): Promise<void> {
    await this.transaction.run(ctx, (tx) =>
      recordAudit(tx, ctx, { action: 'outcomes.export', recordId: ctx.studioId, fields: [form] }),
    );
  }
}

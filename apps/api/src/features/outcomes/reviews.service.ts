import { Injectable } from '@nestjs/common';
import { TenantTransaction, type TenantContext } from '@studio/database';
import { ComparisonNeedsChange } from './outcomes.errors.js';
import { powerAnswer } from './power-answer.js';
import type { OutcomeReviewResponse, PowerAnswerResponse } from './review.dto.js';
import { groupAndOthers, groupInWords, groupOf } from './review-group.js';
import { choosesByChange, type CompareQuery, type ReviewQuery } from './review-query.dto.js';
import { listReviewedSessions } from './review.queries.js';
import { review } from './review.js';

const usualMarginPercent = 2;

@Injectable()
export class ReviewsService {
  constructor(private readonly transaction: TenantTransaction) {}

  /** @throws ComparisonNeedsChange */
  async review(ctx: TenantContext, query: CompareQuery): Promise<OutcomeReviewResponse> {
    const withOthers = query.compareWith === 'others';
    if (withOthers && !choosesByChange(query)) throw new ComparisonNeedsChange();
    const sessions = await this.transaction.read(ctx, (sql) =>
      listReviewedSessions(sql, { ...query, studioId: ctx.studioId, withOthers }),
    );
    const { group, others } = groupAndOthers(sessions);
    return review(group, {
      groupInWords: groupInWords(query),
      powerMarginPercent: query.powerMarginPercent ?? usualMarginPercent,
      others: withOthers ? others : null,
    });
  }

  async power(ctx: TenantContext, query: ReviewQuery): Promise<PowerAnswerResponse> {
    const sessions = await this.transaction.read(ctx, (sql) =>
      listReviewedSessions(sql, { ...query, studioId: ctx.studioId, withOthers: false }),
    );
    return powerAnswer(groupOf(sessions).sessions, {
      groupInWords: groupInWords(query),
      powerMarginPercent: query.powerMarginPercent ?? usualMarginPercent,
    });
  }
}

import { Injectable } from '@nestjs/common';
import { questionOf } from '@studio/clinical-flags';
import { studioClock, TenantTransaction, type TenantContext } from '@studio/database';
import { QuestionSetResponse } from '../screenings/index.js';
import { askedOf, publishedSet } from './asked-of.js';
import type {
  FollowUpAnswersRequest,
  FollowUpLinkResponse,
  FollowUpReceivedResponse,
} from './follow-up-links.dto.js';
import { handIn } from './hand-in.js';
import { tokenOf, usable } from './usable-link.js';

/** The link of a follow-up for programs; people get the pages. */
@Injectable()
export class FollowUpLinksService {
  constructor(private readonly transaction: TenantTransaction) {}

  async open(link: string): Promise<FollowUpLinkResponse> {
    const token = tokenOf(link);
    return this.transaction.run(token, async (tx) => {
      const followUp = await usable(tx, token);
      const { name } = await studioClock(tx, token.studioId);
      const { set, asksForPower } = await askedOf(tx, followUp);
      const { week, daysAfter } = followUp;
      return { studio: name, week, daysAfter, asksForPower, questions: QuestionSetResponse.of(set) };
    });
  }

  async answer(
    link: string,
    request: FollowUpAnswersRequest,
    requestId: string,
  ): Promise<FollowUpReceivedResponse> {
    const token = tokenOf(link);
    return this.transaction.run(token, async (tx) => {
      const followUp = await usable(tx, token);
      const ctx: TenantContext = { studioId: token.studioId, userId: null, roles: [], requestId };
      const set = publishedSet(followUp);
      const named = Object.entries(namedAnswers(request)).filter(([key]) => questionOf(set, key));
      const answers = { ...Object.fromEntries(named), ...request.answers };
      const { advice, caution } = await handIn(tx, ctx, followUp, answers);
      return { advice: [...advice], caution };
    });
  }
}

/** The fields that are named in the request, as answers to the questions they are; null is no answer. */
function namedAnswers(request: FollowUpAnswersRequest): Record<string, unknown> {
  const { pain, comfort, numbness, power20MinW, saddleHeightMm } = request;
  const answers = {
    pain,
    comfort,
    foot_numb_on_bike: numbness == null ? null : numbness ? 'yes' : 'no',
    power_20_min_w: power20MinW,
    saddle_height_mm: saddleHeightMm,
  };
  return Object.fromEntries(Object.entries(answers).filter(([, answer]) => answer != null));
}

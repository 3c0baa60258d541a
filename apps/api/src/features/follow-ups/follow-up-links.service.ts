import { Injectable } from '@nestjs/common';
import { sinceTheFit } from '@studio/clinical-flags';
import {
  announce,
  hashesEqual,
  orderJob,
  readClock,
  readTenantToken,
  recordAudit,
  secretHash,
  studioClock,
  TenantTransaction,
  type FollowUp,
  type TenantToken,
} from '@studio/database';
import type { EntityManager } from 'typeorm';
import { NotFound } from '../../http/problem.js';
import { isPermitted, QuestionSetResponse, screen } from '../screenings/index.js';
import type {
  FollowUpAnswersRequest,
  FollowUpLinkResponse,
  FollowUpReceivedResponse,
} from './follow-up-links.dto.js';
import { LinkSpent } from './follow-ups.errors.js';
import * as queries from './follow-ups.queries.js';

@Injectable()
export class FollowUpLinksService {
  constructor(private readonly transaction: TenantTransaction) {}

  async open(link: string): Promise<FollowUpLinkResponse> {
    const token = tokenOf(link);
    return this.transaction.run(token, async (tx) => {
      const { week, clientId } = await usable(tx, token);
      const { name } = await studioClock(tx, token.studioId);
      const asksForPower = await isPermitted(tx, { studioId: token.studioId, clientId }, 'hard_effort');
      return { studio: name, week, asksForPower, questions: QuestionSetResponse.of(sinceTheFit) };
    });
  }

  async answer(
    link: string,
    request: FollowUpAnswersRequest,
    requestId: string,
  ): Promise<FollowUpReceivedResponse> {
    const token = tokenOf(link);
    const { studioId, id } = token;
    const { answers, saddleHeightMm = null, ...reported } = request;
    return this.transaction.run(token, async (tx) => {
      const { clientId, fitSessionId } = await usable(tx, token);
      const ctx = { studioId, userId: null, roles: [], requestId };
      const {
        id: screeningId,
        evaluation,
        stands,
      } = await screen(tx, ctx, {
        clientId,
        occasion: 'follow_up',
        questionSetId: sinceTheFit.id,
        questionSetVersion: sinceTheFit.version,
        answers,
      });
      await queries.storeAnswers(tx, { studioId, id }, { ...reported, saddleHeightMm, screeningId });
      await orderJob(tx, { studioId, job: 'summarise-outcome', payload: { fitSessionId } });
      await recordAudit(tx, ctx, { action: 'follow-ups.answer', recordId: id });
      await announce(tx, { studioId, type: 'follow_up.answered', subjectId: id });
      return {
        advice: stands.map((finding) => finding.messageForClient),
        caution: evaluation.caution,
      };
    });
  }
}

function tokenOf(link: string): TenantToken {
  const token = readTenantToken(link);
  if (!token) throw new NotFound();
  return token;
}

/** @throws NotFound for a link that never was, LinkSpent for one that was used or has run out */
async function usable(tx: EntityManager, token: TenantToken): Promise<FollowUp> {
  const followUp = await queries.findFollowUpForUpdate(tx, { studioId: token.studioId, id: token.id });
  if (!followUp?.linkHash || !hashesEqual(followUp.linkHash, secretHash(token.secret))) throw new NotFound();
  const now = await readClock(tx);
  const expired = followUp.linkExpiresAt === null || followUp.linkExpiresAt <= now;
  if (followUp.answeredAt !== null || followUp.state === 'cancelled' || expired) throw new LinkSpent();
  return followUp;
}

import { Inject, Injectable } from '@nestjs/common';
import { riderIntake } from '@studio/clinical-flags';
import type { ApiConfig } from '@studio/config';
import {
  newSecret,
  orderMessage,
  recordAudit,
  secretHash,
  studioClock,
  tenantToken,
  TenantTransaction,
  type TenantContext,
} from '@studio/database';
import { ApiConfigToken } from '../../http/http.module.js';
import { found } from '../../http/problem.js';
import { requireAbleToConsent, requireClient, requireConsent } from '../clients/index.js';
import {
  IntakeLinkResponse,
  stateOf,
  type CreatedIntakeLinkResponse,
  type CreateIntakeLinkRequest,
} from './intake-links.dto.js';
import * as queries from './intake-links.queries.js';
import { IntakeNotOpen, NoAddress } from './intake-pages.errors.js';

@Injectable()
export class IntakeLinksService {
  constructor(
    private readonly transaction: TenantTransaction,
    @Inject(ApiConfigToken) private readonly config: ApiConfig,
  ) {}

  /** A client has one open link at most; a new one goes on from the answers saved under the one before. */
  async create(
    ctx: TenantContext,
    clientId: string,
    request: CreateIntakeLinkRequest,
  ): Promise<CreatedIntakeLinkResponse> {
    const { studioId } = ctx;
    const of = { studioId, clientId };
    const { delivery, validDays = 14 } = request;
    const set = { questionSetId: riderIntake.id, questionSetVersion: riderIntake.version };
    return this.transaction.run(ctx, async (tx) => {
      await requireClient(tx, studioId, clientId);
      await requireAbleToConsent(tx, of, 'health_data');
      if (delivery === 'mail') {
        await requireConsent(tx, of, 'contact');
        if ((await queries.findEmail(tx, of)) === null) throw new NoAddress();
      }
      const answers = await queries.findUnfinishedAnswers(tx, { ...of, ...set });
      await queries.revokeOpenLinks(tx, of);
      // The worker makes the secret of a link it mails, so that none waits in a queue.
      const secret = delivery === 'hand_over' ? newSecret() : null;
      const linkHash = secret === null ? null : secretHash(secret);
      const createdBy = ctx.userId as string;
      const row = { ...of, ...set, delivery, linkHash, validDays, answers, createdBy };
      const id = await queries.insertLink(tx, row);
      if (secret === null) await orderMessage(tx, { ...of, template: 'intake_link', subjectId: id });
      await recordAudit(tx, ctx, { action: 'intake-links.create', recordId: id });
      const { now } = await studioClock(tx, studioId);
      const link = IntakeLinkResponse.of(found(await queries.findLink(tx, { studioId, id })), now);
      const url =
        secret === null ? null : `${this.config.publicUrl}/intake/${tenantToken({ studioId, id, secret })}`;
      return { ...link, url };
    });
  }

  async list(ctx: TenantContext, clientId: string): Promise<IntakeLinkResponse[]> {
    const { studioId } = ctx;
    return this.transaction.run(ctx, async (tx) => {
      await requireClient(tx, studioId, clientId);
      const { now } = await studioClock(tx, studioId);
      const rows = await queries.listLinks(tx, { studioId, clientId });
      return rows.map((row) => IntakeLinkResponse.of(row, now));
    });
  }

  async revoke(ctx: TenantContext, id: string): Promise<IntakeLinkResponse> {
    const key = { studioId: ctx.studioId, id };
    return this.transaction.run(ctx, async (tx) => {
      const link = found(await queries.findLinkForUpdate(tx, key));
      const { now } = await studioClock(tx, ctx.studioId);
      if (stateOf(link, now) !== 'open') throw new IntakeNotOpen();
      await queries.revokeLink(tx, key);
      await recordAudit(tx, ctx, { action: 'intake-links.revoke', recordId: id });
      return IntakeLinkResponse.of(found(await queries.findLink(tx, key)), now);
    });
  }
}

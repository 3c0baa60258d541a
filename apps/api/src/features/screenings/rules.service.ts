import { Injectable } from '@nestjs/common';
import { ruleSetVersion } from '@studio/clinical-flags';
import { recordAudit, studioClock, TenantTransaction, violates, type TenantContext } from '@studio/database';
import { localDay } from '../../http/local-days.js';
import { RuleSetResponse, type SignOffRequest } from './rules.dto.js';
import { insertSignOff, listSignOffs } from './rules.queries.js';
import { AlreadySigned, SignOffImpossible } from './screenings.errors.js';

@Injectable()
export class RulesService {
  constructor(private readonly transaction: TenantTransaction) {}

  async list(ctx: TenantContext): Promise<RuleSetResponse> {
    return this.transaction.run(ctx, async (tx) => RuleSetResponse.of(await listSignOffs(tx, ctx.studioId)));
  }

  /** A signature is for the rules its signer read: those in use, and no others. */
  async signOff(ctx: TenantContext, request: SignOffRequest): Promise<RuleSetResponse> {
    const { studioId } = ctx;
    if (request.ruleSetVersion !== ruleSetVersion) {
      throw new SignOffImpossible('ruleSetVersion', `is not the version in use, ${ruleSetVersion}`);
    }
    try {
      return await this.transaction.runOnce(ctx, async (tx) => {
        const { now, timeZone } = await studioClock(tx, studioId);
        if (request.signedOn > localDay(now, timeZone)) {
          throw new SignOffImpossible('signedOn', 'must not lie in the future');
        }
        const recordId = await insertSignOff(tx, { studioId, recordedBy: ctx.userId as string, ...request });
        await recordAudit(tx, ctx, { action: 'rules.sign-off', recordId });
        return RuleSetResponse.of(await listSignOffs(tx, studioId));
      });
    } catch (error) {
      throw violates(error, 'rule_set_sign_offs_once') ? new AlreadySigned() : error;
    }
  }
}

import { Injectable } from '@nestjs/common';
import { recordAudit, TenantTransaction, violates, type TenantContext } from '@studio/database';
import { found } from '../../http/problem.js';
import type { ChosenActivitiesFields } from './chosen-activities.dto.js';
import * as queries from './chosen-activities.queries.js';
import { ActivitiesFixed } from './follow-ups.errors.js';
import { findSession } from './follow-ups.queries.js';

@Injectable()
export class ChosenActivitiesService {
  constructor(private readonly transaction: TenantTransaction) {}

  async get(ctx: TenantContext, fitSessionId: string): Promise<ChosenActivitiesFields> {
    const of = { studioId: ctx.studioId, fitSessionId };
    return this.transaction.run(ctx, async (tx) => {
      found(await findSession(tx, of));
      const named = await queries.listActivities(tx, of);
      return { activities: named.map(({ activity, ability }) => ({ activity, ability })) };
    });
  }

  async put(
    ctx: TenantContext,
    fitSessionId: string,
    { activities }: ChosenActivitiesFields,
  ): Promise<ChosenActivitiesFields> {
    const of = { studioId: ctx.studioId, fitSessionId };
    try {
      return await this.transaction.run(ctx, async (tx) => {
        if (found(await findSession(tx, of)).signedAt !== null) throw new ActivitiesFixed();
        const named = activities.map(({ activity, ability }, at) => ({
          position: at + 1,
          activity,
          ability,
        }));
        await queries.replaceActivities(tx, of, named);
        await recordAudit(tx, ctx, {
          action: 'fit-sessions.write',
          recordId: fitSessionId,
          fields: ['chosen_activities'],
        });
        return { activities };
      });
    } catch (error) {
      // The database guards it too, against a signature set meanwhile.
      throw violates(error, 'fit_sessions_signed_is_final') ? new ActivitiesFixed() : error;
    }
  }
}

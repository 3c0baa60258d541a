import { Injectable } from '@nestjs/common';
import { recordAudit, TenantTransaction, type TenantContext } from '@studio/database';
import { InvalidRequest, StaleVersion } from '../../http/problem.js';
import type { MessageSettingsResponse, UpdateMessageSettingsRequest } from './message-settings.dto.js';
import { findSettings, updateSettings } from './message-settings.queries.js';

@Injectable()
export class MessageSettingsService {
  constructor(private readonly transaction: TenantTransaction) {}

  async get(ctx: TenantContext): Promise<MessageSettingsResponse> {
    return this.transaction.read(ctx, (sql) => findSettings(sql, ctx.studioId));
  }

  async update(
    ctx: TenantContext,
    version: number,
    { quietHours, ...request }: UpdateMessageSettingsRequest,
  ): Promise<MessageSettingsResponse> {
    if (quietHours && quietHours.from === quietHours.until) {
      throw new InvalidRequest([{ field: 'quietHours.until', message: 'must differ from the beginning' }]);
    }
    const { studioId } = ctx;
    return this.transaction.run(ctx, async (tx) => {
      const fields = {
        ...request,
        ...(quietHours !== undefined && {
          quietFrom: quietHours?.from ?? null,
          quietUntil: quietHours?.until ?? null,
        }),
      };
      const before = await findSettings(tx, studioId);
      if (!(await updateSettings(tx, { studioId, version }, fields))) throw new StaleVersion();
      const after = await findSettings(tx, studioId);
      await recordAudit(tx, ctx, {
        ...{ action: 'message-settings.update', recordId: studioId, fields: Object.keys(fields) },
        ...{ before, after },
      });
      return after;
    });
  }
}

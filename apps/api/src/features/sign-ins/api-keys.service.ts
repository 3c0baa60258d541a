import { Injectable } from '@nestjs/common';
import {
  newSecret,
  readClock,
  recordAudit,
  secretHash,
  tenantToken,
  TenantTransaction,
  type TenantContext,
} from '@studio/database';
import { apiKeyPrefix } from '../../http/api-keys.js';
import { InvalidRequest, NotFound } from '../../http/problem.js';
import { ApiKeyResponse, type CreateApiKeyRequest, type NewApiKeyResponse } from './api-keys.dto.js';
import * as queries from './api-keys.queries.js';

const longestDays = 366;

@Injectable()
export class ApiKeysService {
  constructor(private readonly transaction: TenantTransaction) {}

  async list(ctx: TenantContext): Promise<ApiKeyResponse[]> {
    const keys = await this.transaction.run(ctx, (tx) => queries.listApiKeys(tx, reachOf(ctx)));
    return keys.map((key) => ApiKeyResponse.of(key));
  }

  async create(ctx: TenantContext, request: CreateApiKeyRequest): Promise<NewApiKeyResponse> {
    const { studioId } = ctx;
    const { name, roles, readOnly = false } = request;
    if (!roles.every((role) => ctx.roles.includes(role))) {
      throw new InvalidRequest([{ field: 'roles', message: 'must be among your own' }]);
    }
    const expiresAt = new Date(request.expiresAt);
    const secret = newSecret();
    return this.transaction.run(ctx, async (tx) => {
      const days = (expiresAt.getTime() - (await readClock(tx)).getTime()) / 86_400_000;
      if (days <= 0 || days > longestDays) {
        throw new InvalidRequest([{ field: 'expiresAt', message: 'must be within a year from now' }]);
      }
      const row = { studioId, userId: ctx.userId as string, name, roles, readOnly, expiresAt };
      const key = await queries.insertApiKey(tx, { ...row, secretHash: secretHash(secret) });
      await recordAudit(tx, ctx, { action: 'api-keys.create', recordId: key.id });
      return {
        ...ApiKeyResponse.of(key),
        key: apiKeyPrefix + tenantToken({ studioId, id: key.id, secret }),
      };
    });
  }

  async revoke(ctx: TenantContext, id: string): Promise<void> {
    await this.transaction.run(ctx, async (tx) => {
      if (!(await queries.revokeApiKey(tx, { ...reachOf(ctx), id }))) throw new NotFound();
      await recordAudit(tx, ctx, { action: 'api-keys.revoke', recordId: id });
    });
  }
}

/** One's own keys; an owner's hand reaches those of everyone in the studio. */
const reachOf = ({ studioId, userId, roles }: TenantContext): queries.Reach => ({
  studioId,
  ...(!roles.includes('owner') && { userId: userId as string }),
});

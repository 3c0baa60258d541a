import { Injectable } from '@nestjs/common';
import { hash, verify } from '@node-rs/argon2';
import {
  hashesEqual,
  newSecret,
  readTenantToken,
  recordAudit,
  secretHash,
  tenantToken,
  TenantTransaction,
  type User,
} from '@studio/database';
import { randomUUID } from 'node:crypto';
import { DataSource, type EntityManager } from 'typeorm';
import { AccessTokens, accessTokenSeconds } from '../../http/access-tokens.js';
import type { RefreshRequest, SignInRequest, SignInResponse } from './sign-ins.dto.js';
import { RefreshRefused, SignInRefused } from './sign-ins.errors.js';
import * as queries from './sign-ins.queries.js';

const refreshDays = 14;

@Injectable()
export class SignInsService {
  /** Checked when there is no such person, so that the answer takes as long as for one there is. */
  private readonly decoyHash = hash('no such person');

  constructor(
    private readonly dataSource: DataSource,
    private readonly transaction: TenantTransaction,
    private readonly tokens: AccessTokens,
  ) {}

  async signIn(request: SignInRequest, requestId: string): Promise<SignInResponse> {
    const studioId = await queries.findStudioIdByHandle(this.dataSource, request.studio);
    const user =
      studioId === null
        ? null
        : await this.transaction.run({ studioId }, (tx) =>
            queries.findActiveUserByEmail(tx, studioId, request.email),
          );
    const matches = await verify(user?.passwordHash ?? (await this.decoyHash), request.password);
    if (!user || !matches) throw new SignInRefused();

    return this.transaction.run(user, (tx) =>
      this.respond(tx, user, randomUUID(), requestId, 'sign-ins.begin'),
    );
  }

  async refresh(request: RefreshRequest, requestId: string): Promise<SignInResponse> {
    const token = readTenantToken(request.refreshToken);
    if (!token) throw new RefreshRefused();
    const { studioId } = token;
    const response = await this.transaction.run({ studioId }, async (tx) => {
      const row = await queries.findRefreshTokenForUpdate(tx, studioId, token.id);
      if (!row || !hashesEqual(row.secretHash, secretHash(token.secret))) return null;
      if (row.revokedAt !== null || row.expiresAt.getTime() <= Date.now()) return null;
      if (row.replacedAt !== null) {
        // Somebody holds a copy: whoever it is, both sign in again.
        await queries.revokeFamily(tx, studioId, row.familyId);
        return null;
      }
      const user = await queries.findActiveUser(tx, studioId, row.userId);
      if (!user) return null;
      await queries.markReplaced(tx, studioId, row.id);
      return this.respond(tx, user, row.familyId, requestId, 'sign-ins.refresh');
    });
    if (!response) throw new RefreshRefused();
    return response;
  }

  /** Ends the sign-in a refresh token belongs to; says nothing about a token that is not ours. */
  async end(request: RefreshRequest): Promise<void> {
    const token = readTenantToken(request.refreshToken);
    if (!token) return;
    await this.transaction.run(token, async (tx) => {
      const row = await queries.findRefreshTokenForUpdate(tx, token.studioId, token.id);
      if (!row || !hashesEqual(row.secretHash, secretHash(token.secret))) return;
      await queries.revokeFamily(tx, token.studioId, row.familyId);
    });
  }

  /** Issue the next pair of a sign-in's chain. */
  private async respond(
    tx: EntityManager,
    user: User,
    familyId: string,
    requestId: string,
    action: string,
  ): Promise<SignInResponse> {
    const { studioId, roles } = user;
    const secret = newSecret();
    const expiresAt = new Date(Date.now() + refreshDays * 86_400_000);
    const id = await queries.insertRefreshToken(tx, {
      studioId,
      userId: user.id,
      familyId,
      secretHash: secretHash(secret),
      expiresAt,
    });
    await recordAudit(tx, { studioId, userId: user.id, roles, requestId }, { action, recordId: familyId });
    return {
      accessToken: await this.tokens.issue({ studioId, userId: user.id, roles }),
      expiresIn: accessTokenSeconds,
      refreshToken: tenantToken({ studioId, id, secret }),
      user: { id: user.id, displayName: user.displayName, roles },
    };
  }
}

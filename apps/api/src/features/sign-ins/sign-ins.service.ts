import { Inject, Injectable } from '@nestjs/common';
import type { ApiConfig } from '@studio/config';
import {
  findClinicianMark,
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
import { AccessTokens, accessTokenSeconds, type Bearer } from '../../http/access-tokens.js';
import type { Caller } from '../../http/caller.js';
import { ApiConfigToken } from '../../http/http.module.js';
import { hashPassword, passwordMatches } from '../../http/passwords.js';
import { Attempts } from './attempts.js';
import type { Person } from './person.js';
import { SecondFactors } from './second-factors.js';
import type {
  AuthenticatorResponse,
  ConfirmSetUpRequest,
  FirstSignInResponse,
  RefreshRequest,
  SetUpRequest,
  SignInRequest,
  SignInResponse,
} from './sign-ins.dto.js';
import { RefreshRefused, SecondFactorNeeded, SecondFactorToSetUp, SignInRefused } from './sign-ins.errors.js';
import * as queries from './sign-ins.queries.js';

const refreshDays = 14;

@Injectable()
export class SignInsService {
  /** Checked when there is no such person, so that the answer takes as long as for one there is. */
  private readonly decoyHash = hashPassword('no such person');

  constructor(
    private readonly dataSource: DataSource,
    private readonly transaction: TenantTransaction,
    private readonly tokens: AccessTokens,
    private readonly attempts: Attempts,
    private readonly secondFactors: SecondFactors,
    @Inject(ApiConfigToken) private readonly config: ApiConfig,
  ) {}

  async signIn(request: SignInRequest, caller: Caller): Promise<SignInResponse> {
    const studioId = await queries.findStudioIdByHandle(this.dataSource, request.studio);
    if (studioId === null) {
      await passwordMatches(await this.decoyHash, request.password);
      throw new SignInRefused();
    }
    const attempt = await this.attempts.begin(studioId, request.email, caller.address);
    const user = await this.transaction.run({ studioId }, (tx) =>
      queries.findActiveUserByEmail(tx, studioId, request.email),
    );
    const matches = await passwordMatches(user?.passwordHash ?? (await this.decoyHash), request.password);
    if (!user || user.passwordHash === null || !matches) throw new SignInRefused();

    const person = { studioId, userId: user.id };
    const result = await this.transaction.run({ studioId }, async (tx) => {
      const refusal = await this.secondFactorRefusal(tx, user, request.code);
      if (refusal) return refusal;
      return this.respond(tx, user, randomUUID(), caller, 'sign-ins.begin');
    });
    if (result === 'to-set-up') {
      throw new SecondFactorToSetUp(await this.tokens.issue({ ...person, roles: [] }, 'second-factor'));
    }
    if (result === 'needed') throw new SecondFactorNeeded();
    if (result === 'wrong') throw new SignInRefused();
    await this.attempts.succeeded(attempt);
    return result;
  }

  async beginSetUp({ setUpToken }: SetUpRequest, requestId: string): Promise<AuthenticatorResponse> {
    const { studioId, userId } = await this.bearerOf(setUpToken);
    return this.transaction.run({ studioId }, async (tx) => {
      const user = await queries.findActiveUser(tx, studioId, userId);
      if (!user) throw new SignInRefused();
      await recordAudit(
        tx,
        { studioId, userId, roles: [], requestId },
        { action: 'second-factors.begin', recordId: userId },
      );
      const studioName = await queries.getStudioName(tx, studioId);
      return this.secondFactors.begin(tx, { studioId, userId }, { email: user.email, studioName });
    });
  }

  async confirmSetUp(
    { setUpToken, code }: ConfirmSetUpRequest,
    caller: Caller,
  ): Promise<FirstSignInResponse> {
    const { studioId, userId } = await this.bearerOf(setUpToken);
    const { requestId } = caller;
    return this.transaction.run({ studioId }, async (tx) => {
      const user = await queries.findActiveUser(tx, studioId, userId);
      if (!user) throw new SignInRefused();
      const ctx = { studioId, userId, roles: user.roles, requestId };
      const recoveryCodes = await this.secondFactors.confirm(tx, ctx, { studioId, userId }, code);
      return { recoveryCodes, signIn: await this.respond(tx, user, randomUUID(), caller, 'sign-ins.begin') };
    });
  }

  async refresh(request: RefreshRequest, caller: Caller): Promise<SignInResponse> {
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
      return this.respond(tx, user, row.familyId, caller, 'sign-ins.refresh');
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

  private async secondFactorRefusal(
    tx: EntityManager,
    user: User,
    code: string | undefined,
  ): Promise<'to-set-up' | 'needed' | 'wrong' | null> {
    const person: Person = { studioId: user.studioId, userId: user.id };
    if (await this.secondFactors.stands(tx, person)) {
      if (code === undefined) return 'needed';
      return (await this.secondFactors.take(tx, person, code)) ? null : 'wrong';
    }
    return this.config.ownersNeedSecondFactor && user.roles.includes('owner') ? 'to-set-up' : null;
  }

  private async bearerOf(setUpToken: string): Promise<Bearer> {
    const bearer = await this.tokens.verify(setUpToken, 'second-factor');
    if (!bearer) throw new SignInRefused();
    return bearer;
  }

  /** Issue the next pair of a sign-in's chain. */
  private async respond(
    tx: EntityManager,
    user: User,
    familyId: string,
    caller: Caller,
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
      fromAddress: caller.address,
      userAgent: caller.userAgent,
    });
    const ctx = { studioId, userId: user.id, roles, requestId: caller.requestId };
    await recordAudit(tx, ctx, { action, recordId: familyId });
    const person = { studioId, userId: user.id };
    const clinician = (await findClinicianMark(tx, person)) !== null;
    return {
      accessToken: await this.tokens.issue({ ...person, roles, clinician, signInId: familyId }),
      expiresIn: accessTokenSeconds,
      refreshToken: tenantToken({ studioId, id, secret }),
      user: { id: user.id, displayName: user.displayName, roles },
    };
  }
}

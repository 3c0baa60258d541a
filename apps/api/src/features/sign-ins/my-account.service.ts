import { Injectable } from '@nestjs/common';
import { recordAudit, TenantTransaction, type TenantContext, type User } from '@studio/database';
import type { EntityManager } from 'typeorm';
import { hashPassword, passwordMatches, requireGoodPassword } from '../../http/passwords.js';
import { NotFound } from '../../http/problem.js';
import { Attempts, type OpenAttempt } from './attempts.js';
import type {
  ChangePasswordRequest,
  CodeRequest,
  MyAccountResponse,
  PasswordCheckRequest,
  RemoveSecondFactorRequest,
  StandingSignInResponse,
} from './my-account.dto.js';
import { ownWords, setPassword } from './passwords.queries.js';
import { countRecoveryCodes } from './second-factors.queries.js';
import type { Person } from './person.js';
import { SecondFactors } from './second-factors.js';
import type { AuthenticatorResponse, RecoveryCodesResponse } from './sign-ins.dto.js';
import { WrongCode, WrongPassword } from './sign-ins.errors.js';
import * as queries from './sign-ins.queries.js';

@Injectable()
export class MyAccountService {
  constructor(
    private readonly transaction: TenantTransaction,
    private readonly attempts: Attempts,
    private readonly secondFactors: SecondFactors,
  ) {}

  async get(ctx: TenantContext): Promise<MyAccountResponse> {
    const person = personOf(ctx);
    return this.transaction.run(ctx, async (tx) => {
      const { id, displayName, roles, email } = await me(tx, person);
      const secondFactor = await this.secondFactors.stands(tx, person);
      return {
        id,
        displayName,
        roles,
        email,
        secondFactor,
        recoveryCodesLeft: await countRecoveryCodes(tx, person),
      };
    });
  }

  async changePassword(ctx: TenantContext, request: ChangePasswordRequest): Promise<void> {
    const person = personOf(ctx);
    await this.attempts.succeeded(await this.checkPassword(ctx, request));
    const own = await this.transaction.run(ctx, (tx) => ownWords(tx, person));
    requireGoodPassword(request.newPassword, own, 'newPassword');
    const passwordHash = await hashPassword(request.newPassword);
    await this.transaction.run(ctx, async (tx) => {
      await setPassword(tx, person, passwordHash);
      await queries.revokeSignIns(tx, { ...person, except: ctx.signInId ?? null });
      await recordAudit(tx, ctx, { action: 'passwords.change', recordId: person.userId });
    });
  }

  async beginSecondFactor(ctx: TenantContext, request: PasswordCheckRequest): Promise<AuthenticatorResponse> {
    const person = personOf(ctx);
    await this.attempts.succeeded(await this.checkPassword(ctx, request));
    return this.transaction.run(ctx, async (tx) => {
      const { email } = await me(tx, person);
      const studioName = await queries.getStudioName(tx, ctx.studioId);
      await recordAudit(tx, ctx, { action: 'second-factors.begin', recordId: person.userId });
      return this.secondFactors.begin(tx, person, { email, studioName });
    });
  }

  async confirmSecondFactor(ctx: TenantContext, { code }: CodeRequest): Promise<RecoveryCodesResponse> {
    return this.transaction.run(ctx, async (tx) => ({
      recoveryCodes: await this.secondFactors.confirm(tx, ctx, personOf(ctx), code),
    }));
  }

  async removeSecondFactor(ctx: TenantContext, request: RemoveSecondFactorRequest): Promise<void> {
    const person = personOf(ctx);
    const attempt = await this.checkPassword(ctx, request);
    await this.transaction.run(ctx, async (tx) => {
      if (!(await this.secondFactors.take(tx, person, request.code))) throw new WrongCode();
      await this.secondFactors.remove(tx, ctx, person);
    });
    await this.attempts.succeeded(attempt);
  }

  async listSignIns(ctx: TenantContext): Promise<StandingSignInResponse[]> {
    const rows = await this.transaction.run(ctx, (tx) => queries.listStandingSignIns(tx, personOf(ctx)));
    return rows.map((row) => ({ ...row, current: row.id === ctx.signInId }));
  }

  async endSignIn(ctx: TenantContext, signInId: string): Promise<void> {
    const { studioId } = ctx;
    await this.transaction.run(ctx, async (tx) => {
      if (!(await queries.isOwnSignIn(tx, { ...personOf(ctx), familyId: signInId }))) throw new NotFound();
      await queries.revokeFamily(tx, studioId, signInId);
      await recordAudit(tx, ctx, { action: 'sign-ins.end', recordId: signInId });
    });
  }

  /** Counted like a sign-in: whoever found a screen unlocked guesses no further here. */
  private async checkPassword(ctx: TenantContext, { password }: PasswordCheckRequest): Promise<OpenAttempt> {
    const { passwordHash, email } = await this.transaction.run(ctx, (tx) => me(tx, personOf(ctx)));
    const attempt = await this.attempts.begin(ctx.studioId, email, `sign-in ${ctx.signInId ?? ''}`);
    if (passwordHash === null || !(await passwordMatches(passwordHash, password))) throw new WrongPassword();
    return attempt;
  }
}

const personOf = ({ studioId, userId }: TenantContext): Person => ({ studioId, userId: userId as string });

async function me(tx: EntityManager, { studioId, userId }: Person): Promise<User> {
  const user = await queries.findActiveUser(tx, studioId, userId);
  if (!user) throw new NotFound();
  return user;
}

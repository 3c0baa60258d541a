import { Injectable } from '@nestjs/common';
import { recordAudit, secretHash, StudioKeys, type TenantContext } from '@studio/database';
import type { EntityManager } from 'typeorm';
import { isRecoveryCode, newRecoveryCodes, newTotpSecret, stepOf, toEnrol } from './one-time-codes.js';
import type { Person } from './person.js';
import * as queries from './second-factors.queries.js';
import { SecondFactorStands, WrongCode } from './sign-ins.errors.js';

/** Setting up, checking and removing a person's authenticator, inside a transaction of the caller. */
@Injectable()
export class SecondFactors {
  constructor(private readonly keys: StudioKeys) {}

  async stands(tx: EntityManager, person: Person): Promise<boolean> {
    return (await queries.findSecondFactor(tx, person))?.confirmedAt != null;
  }

  /** A new secret to put into an authenticator; nothing is asked for until a code of it was given back. */
  async begin(
    tx: EntityManager,
    person: Person,
    label: { email: string; studioName: string },
  ): Promise<{ address: string; secret: string }> {
    if (await this.stands(tx, person)) throw new SecondFactorStands();
    const secret = newTotpSecret();
    const sealedSecret = await this.keys.seal(tx, person.studioId, place(person), secret);
    await queries.replaceSecondFactor(tx, person, sealedSecret);
    return toEnrol(secret, label.email, label.studioName);
  }

  /** @returns the recovery codes, shown this once */
  async confirm(tx: EntityManager, ctx: TenantContext, person: Person, code: string): Promise<string[]> {
    const row = await queries.findSecondFactor(tx, person);
    if (row?.confirmedAt != null) throw new SecondFactorStands();
    if (!row || !(await this.takeCode(tx, person, row, code))) throw new WrongCode();
    await queries.confirmSecondFactor(tx, person);
    const codes = newRecoveryCodes();
    await queries.replaceRecoveryCodes(tx, person, codes.map(secretHash));
    await recordAudit(tx, ctx, { action: 'second-factors.confirm', recordId: person.userId });
    return codes;
  }

  /** A code of the authenticator or a recovery code; each is taken once. */
  async take(tx: EntityManager, person: Person, code: string): Promise<boolean> {
    if (isRecoveryCode(code)) return queries.useRecoveryCode(tx, person, secretHash(code));
    const row = await queries.findSecondFactor(tx, person);
    return row !== null && this.takeCode(tx, person, row, code);
  }

  async remove(tx: EntityManager, ctx: TenantContext, person: Person): Promise<void> {
    await queries.deleteSecondFactor(tx, person);
    await recordAudit(tx, ctx, { action: 'second-factors.remove', recordId: person.userId });
  }

  private async takeCode(
    tx: EntityManager,
    person: Person,
    row: { sealedSecret: Buffer },
    code: string,
  ): Promise<boolean> {
    const secret = await this.keys.unseal(tx, person.studioId, place(person), row.sealedSecret);
    const step = stepOf(secret, code, new Date());
    return step !== null && queries.takeStep(tx, person, step);
  }
}

const place = ({ userId }: Person): string => `second_factors.sealed_secret/${userId}`;

import { Injectable } from '@nestjs/common';
import { readClock, TenantTransaction } from '@studio/database';
import { createHash } from 'node:crypto';
import * as queries from './attempts.queries.js';
import { secondsToWait } from './hold-off.js';
import { HeldOff } from './sign-ins.errors.js';

/** One try to prove who one is; failed until it is told to have succeeded. */
export interface OpenAttempt {
  readonly studioId: string;
  readonly id: string;
}

/** Counts tries to prove who one is, and makes those wait who failed too often. */
@Injectable()
export class Attempts {
  constructor(private readonly transaction: TenantTransaction) {}

  /**
   * @param from a network address, or the sign-in for somebody who gives the password once more
   * @throws HeldOff before anything is looked at
   */
  async begin(studioId: string, email: string, from: string): Promise<OpenAttempt> {
    const attempt = {
      studioId,
      accountHash: createHash('sha256').update(email).digest(),
      fromAddress: from,
    };
    const id = await this.transaction.run({ studioId }, (tx) => queries.insertAttempt(tx, attempt));
    const wait = await this.transaction.run({ studioId }, async (tx) => {
      const seconds = secondsToWait(await queries.findFilled(tx, { ...attempt, id }), await readClock(tx));
      if (seconds > 0) await queries.markAttempt(tx, { studioId, id }, 'held_off');
      return seconds;
    });
    if (wait > 0) throw new HeldOff(wait);
    return { studioId, id };
  }

  async succeeded(attempt: OpenAttempt): Promise<void> {
    await this.transaction.run(attempt, (tx) => queries.markAttempt(tx, attempt, 'succeeded'));
  }
}

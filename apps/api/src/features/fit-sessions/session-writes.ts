import { Injectable } from '@nestjs/common';
import { TenantTransaction, type TenantContext } from '@studio/database';
import { insertOperation, newIdAndTime } from './operations.queries.js';
import { whileOpen } from './while-open.js';
import type { AnyWrite, SessionWrite } from './writes/session-write.js';
import { writeKinds, type WriteKind } from './writes/write-kinds.js';

/**
 * Every way of writing to a session, by name. A slice adds its own when its module starts; whatever comes by a route is
 * written down as an operation too, so that a device that was away can catch up with it.
 */
@Injectable()
export class SessionWrites {
  private readonly known = new Map<WriteKind, AnyWrite>();

  constructor(private readonly transaction: TenantTransaction) {}

  add(...writes: AnyWrite[]): void {
    for (const write of writes) this.known.set(write.kind, write);
  }

  find(kind: WriteKind): AnyWrite {
    const write = this.known.get(kind);
    if (!write) throw new TypeError(`no slice has added the write ${kind}`);
    return write;
  }

  /** @throws TypeError when a kind is named that no slice has added: found out at the start, not by a client */
  onApplicationBootstrap(): void {
    for (const kind of writeKinds) this.find(kind);
  }

  /** For a route: at once, in a transaction of its own; a repeated Idempotency-Key gets its first answer again. */
  async now<Payload extends object, Answer extends object>(
    ctx: TenantContext,
    fitSessionId: string,
    write: SessionWrite<Payload, Answer>,
    payload: Payload,
  ): Promise<Answer> {
    return whileOpen(this.transaction, ctx, fitSessionId, async (tx, session) => {
      const { id, at } = await newIdAndTime(tx);
      const answer = await write.apply(tx, { ctx, session, id, at, deviceId: null }, payload);
      await insertOperation(tx, {
        ...{
          studioId: ctx.studioId,
          id,
          fitSessionId,
          kind: write.kind,
          payload,
          sentBy: ctx.userId as string,
        },
        ...{ deviceId: null, sequence: null, madeAt: at, state: 'applied', answer: { answer } },
      });
      return answer;
    });
  }
}

import { Injectable } from '@nestjs/common';
import { TenantTransaction, type FitSession, type TenantContext } from '@studio/database';
import canonicalize from 'canonicalize';
import type { EntityManager } from 'typeorm';
import { problemOf } from '../../http/problem.filter.js';
import { found } from '../../http/problem.js';
import { validationPipe } from '../../http/validation.pipe.js';
import {
  ChangedMeanwhile,
  OperationIdReused,
  PayloadUnreadable,
  SequenceReused,
  SequenceTooFar,
  SessionSigned,
} from './fit-sessions.errors.js';
import { findFitSession, findSessionForUpdate } from './fit-sessions.queries.js';
import type {
  OperationPage,
  OperationRequest,
  OperationResult,
  OperationsQuery,
  OperationsRequest,
  OperationsResponse,
} from './operations.dto.js';
import * as queries from './operations.queries.js';
import { SessionWrites } from './session-writes.js';
import { isMarkedUnreadable } from './unreadable-payloads.js';
import type { WriteKind } from './writes/write-kinds.js';

/** A gap larger than this is a fault of the device, not of the connection. */
const greatestGap = 1000;

interface Sent extends OperationRequest {
  readonly fitSessionId: string;
  readonly deviceId: string;
}

interface Settled {
  readonly state: 'applied' | 'refused' | 'conflict';
  readonly answer: queries.KeptAnswer;
}

/**
 * Operations that a device sends when it can, in any order and as often as it likes: each is carried out once, in the
 * order of the device's own count, in a transaction of its own together with its outcome.
 */
@Injectable()
export class OperationsService {
  private readonly check = validationPipe();

  constructor(
    private readonly transaction: TenantTransaction,
    private readonly writes: SessionWrites,
  ) {}

  async take(
    ctx: TenantContext,
    fitSessionId: string,
    { deviceId, operations }: OperationsRequest,
  ): Promise<OperationsResponse> {
    const of = { studioId: ctx.studioId, fitSessionId, deviceId };
    const results = new Map<string, OperationResult>();
    const known = await this.known(ctx, operations);
    for (const operation of [...operations].sort((one, other) => one.sequence - other.sequence)) {
      const sent = { ...operation, fitSessionId, deviceId };
      const before = known.get(operation.id);
      const settled = before?.answer && isSame(before, sent) ? told(before) : await this.settle(ctx, sent);
      results.set(operation.id, settled);
    }
    for (;;) {
      const next = await this.transaction.read(ctx, async (sql) =>
        queries.findBySequence(sql, { ...of, sequence: (await queries.settledUpTo(sql, of)) + 1 }),
      );
      if (!next) break;
      results.set(next.id, await this.settle(ctx, asSent(next)));
    }
    return this.transaction.read(ctx, async (sql) => ({
      results: [...results.values()],
      settledUpTo: await queries.settledUpTo(sql, of),
      missing: await queries.listMissing(sql, of),
    }));
  }

  async list(ctx: TenantContext, fitSessionId: string, query: OperationsQuery): Promise<OperationPage> {
    const { after = 0, limit = 50 } = query;
    const { studioId } = ctx;
    return this.transaction.read(ctx, async (sql) => {
      found(await findFitSession(sql, { studioId, id: fitSessionId }));
      const rows = await queries.listOperations(sql, { studioId, fitSessionId, after, limit: limit + 1 });
      const items = rows.slice(0, limit);
      return { items, next: rows.length > limit ? (items.at(-1)?.number ?? null) : null };
    });
  }

  private async known(
    ctx: TenantContext,
    operations: readonly OperationRequest[],
  ): Promise<Map<string, queries.KnownOperation>> {
    const ids = operations.map(({ id }) => id);
    const rows = await this.transaction.read(ctx, (sql) =>
      queries.listKnown(sql, { studioId: ctx.studioId, ids }),
    );
    return new Map(rows.map((row) => [row.id, row]));
  }

  /** Carried out once, whichever of two senders comes first, or its refusal written down. */
  private settle(ctx: TenantContext, sent: Sent): Promise<OperationResult> {
    const { studioId } = ctx;
    const { id, fitSessionId, deviceId, sequence, kind, payload } = sent;
    const refusedUnkept = (error: Error): OperationResult =>
      told({ ...sent, state: 'refused', number: null, answer: { problem: problemOf(error, ctx.requestId) } });

    return this.transaction.run(ctx, async (tx) => {
      // The session's lock is what puts operations one after the other.
      const session = found(await findSessionForUpdate(tx, { studioId, id: fitSessionId }));
      const [known] = await queries.listKnown(tx, { studioId, ids: [id] });
      if (known && !isSame(known, sent)) return refusedUnkept(new OperationIdReused());
      if (known?.answer) return told(known);
      const of = { studioId, fitSessionId, deviceId };
      const last = await queries.settledUpTo(tx, of);
      if (!known && (sequence <= last || (await queries.findBySequence(tx, { ...of, sequence }))))
        return refusedUnkept(new SequenceReused());
      if (sequence > last + greatestGap) return refusedUnkept(new SequenceTooFar(last));
      const row = {
        ...{ ...of, id, sequence, kind, payload },
        madeAt: new Date(sent.madeAt),
        sentBy: ctx.userId as string,
      };
      if (sequence > last + 1) {
        const waiting = { ...row, state: 'waiting' as const, answer: null };
        if (!known) await queries.insertOperation(tx, waiting);
        return told({ ...waiting, number: null });
      }
      const settled = await this.carryOut(ctx, sent, tx, session);
      const number = known
        ? await queries.settleOperation(tx, row, settled)
        : await queries.insertOperation(tx, { ...row, ...settled });
      return told({ ...sent, ...settled, number });
    });
  }

  /** What is refused is undone to here and no further: the session stays locked, so the refusal tells what stands now. */
  private async carryOut(
    ctx: TenantContext,
    sent: Sent,
    tx: EntityManager,
    session: FitSession,
  ): Promise<Settled> {
    try {
      return await tx.transaction((savepoint) => this.apply(ctx, sent, savepoint, session));
    } catch (error) {
      return refusal(error, ctx);
    }
  }

  private async apply(
    ctx: TenantContext,
    { id, kind, payload, madeAt, deviceId }: Sent,
    tx: EntityManager,
    session: FitSession,
  ): Promise<Settled> {
    if (session.signedAt !== null) throw new SessionSigned();
    if (isMarkedUnreadable(payload)) throw new PayloadUnreadable();
    const write = this.writes.find(kind);
    const checked = (await this.check.transform(payload, { type: 'body', metatype: write.payload })) as never;
    const answer = await write.apply(tx, { ctx, session, id, at: new Date(madeAt), deviceId }, checked);
    return { state: 'applied', answer: { answer } };
  }
}

/** What the caller can act on is the outcome; a fault of ours is not, and the device sends again. */
function refusal(error: unknown, ctx: TenantContext): Settled {
  const problem = problemOf(error, ctx.requestId);
  if (problem.status >= 500) throw error;
  return error instanceof ChangedMeanwhile
    ? { state: 'conflict', answer: { problem, standing: error.standing } }
    : { state: 'refused', answer: { problem } };
}

const told = ({
  id,
  sequence,
  state,
  number,
  answer,
}: Pick<queries.KnownOperation, 'id' | 'sequence' | 'state' | 'number' | 'answer'>): OperationResult => ({
  ...{ id, sequence, state, number },
  ...queries.toOutcome(answer ?? {}),
});

function isSame(known: queries.KnownOperation, sent: Sent): boolean {
  const saysOf = ({ fitSessionId, deviceId, sequence, kind, payload }: Sent | typeof known): string =>
    canonicalize([fitSessionId, deviceId, sequence, kind, payload]) ?? '';
  return saysOf(known) === saysOf(sent);
}

const asSent = (known: queries.KnownOperation): Sent => ({
  ...known,
  kind: known.kind as WriteKind,
  payload: known.payload as Sent['payload'],
  madeAt: known.madeAt.toISOString(),
});

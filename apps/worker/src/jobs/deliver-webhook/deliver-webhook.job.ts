import { finishOrder, openTask, type TenantTransaction } from '@studio/database';
import { webhookEvents } from '@studio/job-contracts';
import { endpointSecret, ForbiddenTarget, signatureHeaders } from '@studio/webhooks';
import type { EntityManager } from 'typeorm';
import { GiveUp, type JobHandler, type Order } from '../../order.js';
import * as queries from './deliver-webhook.queries.js';
import { post } from './post.js';

/** House rules; that a receiver who answers 410 wants no more is the Standard Webhooks specification's. */
const oldSecretForHours = 24;
const disabledAfterDays = 3;
const gone = 410;
const answerWithinMs = 15_000;

/**
 * Tells an endpoint of an event. It may be told twice, when this process dies after the answer: the message has the same
 * id then.
 */
export class DeliverWebhookJob implements JobHandler<'deliver-webhook'> {
  constructor(
    private readonly transaction: TenantTransaction,
    private readonly options: { webhookKey: string; localWebhooks: boolean },
  ) {}

  async handle(
    { studioId, outboxId, payload }: Order<'deliver-webhook'>,
    signal: AbortSignal,
  ): Promise<void> {
    const key = { studioId, deliveryId: payload.deliveryId };
    const delivery = await this.transaction.read({ studioId }, (sql) =>
      queries.findDelivery(sql, key, { oldSecretForHours }),
    );
    if (!delivery || delivery.state === 'delivered' || delivery.disabled) {
      await this.transaction.run({ studioId }, async (tx) => {
        await queries.markFailed(tx, key, 'the endpoint is disabled');
        await finishOrder(tx, { studioId, outboxId });
      });
      return;
    }

    const inTime = AbortSignal.any([signal, AbortSignal.timeout(answerWithinMs)]);
    const attempt = await this.attempt(studioId, delivery, inTime);
    // Cut off because the worker stops: that says nothing of the endpoint.
    signal.throwIfAborted();
    await this.transaction.run({ studioId }, async (tx) => {
      await queries.recordAttempt(tx, key, attempt);
      await this.judgeEndpoint(tx, { studioId, endpointId: delivery.endpointId }, attempt);
      if (attempt.error === null) await finishOrder(tx, { studioId, outboxId });
    });
    if (attempt.status === gone) throw new GiveUp('HTTP 410');
    if (attempt.error !== null) throw new Error(attempt.error);
  }

  async gaveUp(
    tx: EntityManager,
    { studioId, payload }: Order<'deliver-webhook'>,
    reason: string,
  ): Promise<void> {
    await queries.markFailed(tx, { studioId, deliveryId: payload.deliveryId }, reason);
  }

  private async attempt(
    studioId: string,
    delivery: queries.DeliveryToMake,
    signal: AbortSignal,
  ): Promise<queries.Attempt> {
    const { endpointId, secretNumber, secretIsNew, eventId: id, type, subjectId, timestamp } = delivery;
    const body = JSON.stringify({
      type,
      timestamp: delivery.occurredAt.toISOString(),
      data: { studioId, [webhookEvents[type].id]: subjectId },
    });
    const numbers = secretIsNew && secretNumber > 1 ? [secretNumber, secretNumber - 1] : [secretNumber];
    const secrets = numbers.map((number) =>
      endpointSecret(this.options.webhookKey, { studioId, endpointId, number }),
    );
    const headers = {
      'content-type': 'application/json',
      'user-agent': 'fitting-studio-webhooks',
      ...signatureHeaders({ id, timestamp, body }, secrets),
    };
    const began = performance.now();
    const tookMs = (): number => Math.round(performance.now() - began);
    try {
      const { localWebhooks: local } = this.options;
      const status = await post(delivery.url, { headers, body }, { local, signal });
      const error = status >= 200 && status < 300 ? null : `HTTP ${status}`;
      return { status, tookMs: tookMs(), error };
    } catch (error) {
      return { status: null, tookMs: tookMs(), error: reasonOf(error) };
    }
  }

  private async judgeEndpoint(
    tx: EntityManager,
    key: { studioId: string; endpointId: string },
    { status, error }: queries.Attempt,
  ): Promise<void> {
    await queries.markEndpoint(tx, key, error === null);
    if (error === null) return;
    const rules = { gone: status === gone, failingForDays: disabledAfterDays };
    if (!(await queries.disableEndpoint(tx, key, rules))) return;
    const { studioId, endpointId: subjectId } = key;
    await openTask(tx, { studioId, kind: 'webhook_disabled', role: 'owner', subjectId });
  }
}

/** Never the error's own words: they can hold the address, which can hold a secret of the receiver's. */
function reasonOf(error: unknown): string {
  if (error instanceof ForbiddenTarget) return error.message;
  const { name, code } = error as { name?: string; code?: string };
  return name === 'AbortError' || name === 'TimeoutError'
    ? 'no answer in time'
    : `no connection (${code ?? name ?? 'unknown'})`;
}

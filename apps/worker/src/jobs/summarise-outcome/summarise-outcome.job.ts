import { finishOrder, type AnswerState, type FollowUp, type TenantTransaction } from '@studio/database';
import { waitingStates } from '@studio/follow-up-plans';
import { isDeepStrictEqual } from 'node:util';
import type { EntityManager } from 'typeorm';
import type { JobHandler, Order } from '../../order.js';
import { clientSummary, methodVersion } from './client-summary.js';
import { outcomeOf } from './outcome.js';
import type { OutcomeInputs } from './outcome-inputs.js';
import * as queries from './summarise-outcome.queries.js';

/** Works a session's outcome out anew from its record; the same record gives the same outcome. */
export class SummariseOutcomeJob implements JobHandler<'summarise-outcome'> {
  constructor(private readonly transaction: TenantTransaction) {}

  async handle({ studioId, outboxId, payload }: Order<'summarise-outcome'>): Promise<void> {
    const key = { studioId, fitSessionId: payload.fitSessionId };
    await this.transaction.run({ studioId }, async (tx) => {
      const followUps = await queries.findFollowUps(tx, key);
      const session = await queries.findSession(tx, key);
      if (session?.signedAt) {
        const answered = followUps
          .filter(({ state }) => state === 'answered')
          .sort((one, other) => Number(one.answeredAt) - Number(other.answeredAt));
        const inputs = await queries.findOutcomeInputs(tx, key, answered);
        await queries.putOutcome(tx, {
          ...key,
          clientId: session.clientId,
          fitterId: session.fitterId,
          signedAt: session.signedAt,
          firstDueAt: firstDue(followUps),
          answerState: answerState(followUps),
          followUpId: answered.at(-1)?.id ?? null,
          outcome: outcomeOf(inputs),
        });
        if (answered.length > 0) await putClientSummary(tx, key, inputs);
      }
      await finishOrder(tx, { studioId, outboxId });
    });
  }
}

/** A new version when what it is worked out from, or how, has changed. */
async function putClientSummary(
  tx: EntityManager,
  key: { studioId: string; fitSessionId: string },
  inputs: OutcomeInputs,
): Promise<void> {
  const newest = await queries.findNewestClientSummary(tx, key);
  if (newest?.methodVersion === methodVersion && isDeepStrictEqual(newest.inputs, inputs)) return;
  const version = (newest?.version ?? 0) + 1;
  await queries.insertClientSummary(tx, {
    ...key,
    version,
    methodVersion,
    inputs,
    result: clientSummary(inputs),
  });
}

const firstDue = (followUps: readonly FollowUp[]): Date | null =>
  followUps.reduce<Date | null>((first, { dueAt }) => (first && first <= dueAt ? first : dueAt), null);

/** Whether an answer may still come or was given up: what is missing is missing. */
const asked = [...waitingStates, 'unanswered'] as const;

function answerState(followUps: readonly FollowUp[]): AnswerState {
  const states = new Set(followUps.map(({ state }) => state));
  if (states.has('answered')) return 'answered';
  if (asked.some((state) => states.has(state))) return 'asked';
  return states.has('scheduled') ? 'waiting' : 'not_asked';
}

import { Baseline, CleatPlanRow, FollowUp, OutcomeSummary, Position } from '@studio/database';
import type { CleatPlan } from '@studio/fit-math';
import type { EntityManager } from 'typeorm';
import type { Outcome, OutcomeInputs } from './outcome.js';

interface Key {
  studioId: string;
  fitSessionId: string;
}

/** Answered follow-ups, oldest first. Locked, so that two answers at once are summed up one after the other. */
export function findAnswered(tx: EntityManager, key: Key): Promise<FollowUp[]> {
  return tx.find(FollowUp, {
    where: { ...key, state: 'answered' },
    order: { answeredAt: 'ASC' },
    lock: { mode: 'pessimistic_write' },
  });
}

export async function findOutcomeInputs(
  tx: EntityManager,
  key: Key,
  answers: readonly FollowUp[],
): Promise<OutcomeInputs> {
  const positions = await tx.findBy(Position, key);
  const saddleAt = (stage: string): number | null =>
    positions.find((position) => position.stage === stage)?.saddleHeightMm ?? null;
  const plans = await tx.find(CleatPlanRow, { where: key, order: { id: 'ASC' } });
  const newestBySide = new Map(plans.map((plan) => [plan.side, plan]));
  return {
    baseline: await tx.findOneBy(Baseline, key),
    answers,
    saddleFoundMm: saddleAt('found'),
    saddleLeftMm: saddleAt('left'),
    plans: [...newestBySide.values()].map(({ result, chosenOption }) => ({
      result: result as CleatPlan,
      chosenOption,
    })),
  };
}

export async function putOutcome(
  tx: EntityManager,
  row: Key & { clientId: string; followUpId: string; outcome: Outcome },
): Promise<void> {
  const { outcome, ...keys } = row;
  const [{ now }] = await tx.query<[{ now: Date }]>('SELECT app_now() AS now');
  await tx.upsert(OutcomeSummary, { ...keys, computedAt: now, ...outcome }, ['studioId', 'fitSessionId']);
}

import {
  Baseline,
  ClientSummaryRow,
  FitSession,
  FollowUp,
  OutcomeSummary,
  Plan,
  Position,
  readClock,
} from '@studio/database';
import { IsNull, type EntityManager } from 'typeorm';
import type { Outcome } from './outcome.js';
import { planFacts, positionFacts, reportOf, type OutcomeInputs } from './outcome-inputs.js';

interface Key {
  studioId: string;
  fitSessionId: string;
}

/** A session's follow-ups that speak of its outcome, in order of time. Locked, so that two orders for one session are carried out one after the other. */
export function findFollowUps(tx: EntityManager, key: Key): Promise<FollowUp[]> {
  const where = { ...key, countsAsOutcome: true };
  return tx.find(FollowUp, { where, order: { dueAt: 'ASC' }, lock: { mode: 'pessimistic_write' } });
}

export function findSession(tx: EntityManager, { studioId, fitSessionId }: Key): Promise<FitSession | null> {
  return tx.findOneBy(FitSession, { studioId, id: fitSessionId });
}

/** @param answered oldest first */
export async function findOutcomeInputs(
  tx: EntityManager,
  key: Key,
  answered: readonly FollowUp[],
): Promise<OutcomeInputs> {
  const positions = await tx.findBy(Position, { ...key, supersededAt: IsNull() });
  const positionAt = (stage: Position['stage']): OutcomeInputs['found'] => {
    const position = positions.find((item) => item.stage === stage);
    return position ? positionFacts(position) : null;
  };
  const plans = await tx.find(Plan, { where: { ...key, kind: 'cleat' }, order: { id: 'ASC' } });
  const newestBySide = new Map(plans.map((plan) => [plan.side, plan]));
  const baseline = await tx.findOneBy(Baseline, key);
  return {
    baseline: baseline && reportOf(baseline),
    answers: answered.map((answer) => ({ week: answer.week, ...reportOf(answer) })),
    found: positionAt('found'),
    left: positionAt('left'),
    plans: [...newestBySide.values()].map(planFacts),
  };
}

type Facts = Pick<
  OutcomeSummary,
  'clientId' | 'fitterId' | 'signedAt' | 'firstDueAt' | 'answerState' | 'followUpId'
>;

export async function putOutcome(
  tx: EntityManager,
  { outcome, ...row }: Key & Facts & { outcome: Outcome },
): Promise<void> {
  const computedAt = await readClock(tx);
  await tx.upsert(OutcomeSummary, { ...row, computedAt, ...outcome }, ['studioId', 'fitSessionId']);
}

export function findNewestClientSummary(tx: EntityManager, key: Key): Promise<ClientSummaryRow | null> {
  return tx.findOne(ClientSummaryRow, { where: key, order: { version: 'DESC' } });
}

export async function insertClientSummary(
  tx: EntityManager,
  row: Key & Pick<ClientSummaryRow, 'version' | 'methodVersion' | 'inputs' | 'result'>,
): Promise<void> {
  await tx.insert(ClientSummaryRow, row);
}

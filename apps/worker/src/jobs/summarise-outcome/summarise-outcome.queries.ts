import {
  Baseline,
  ChosenActivity,
  ClientSummaryRow,
  FitSession,
  FollowUp,
  FollowUpAnswer,
  OutcomeSummary,
  Plan,
  Position,
  readClock,
} from '@studio/database';
import { In, IsNull, type EntityManager } from 'typeorm';
import type { Outcome } from './outcome.js';
import { planFacts, positionFacts, reportOf, sinceTheFit, type OutcomeInputs } from './outcome-inputs.js';

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
  const plans = await tx.find(Plan, {
    where: { ...key, kind: In(['cleat', 'leg_length']) },
    order: { id: 'ASC' },
  });
  const newestBySide = new Map(plans.filter(({ kind }) => kind === 'cleat').map((plan) => [plan.side, plan]));
  const legLength = plans.findLast(
    ({ kind, chosenOption }) => kind === 'leg_length' && chosenOption !== null,
  );
  const baseline = await tx.findOneBy(Baseline, key);
  const activities = await tx.find(ChosenActivity, { where: key, order: { position: 'ASC' } });
  const given = await tx.findBy(FollowUpAnswer, {
    studioId: key.studioId,
    followUpId: In(answered.map(({ id }) => id)),
  });
  return {
    baseline: baseline && reportOf(baseline),
    activitiesBefore: activities.map(({ ability }) => ability),
    answers: answered.map((followUp) => {
      const own = given.filter(({ followUpId }) => followUpId === followUp.id);
      const byQuestion = new Map(own.map(({ question, answer }) => [question, answer]));
      return { week: followUp.week, ...reportOf(followUp), ...sinceTheFit(byQuestion) };
    }),
    found: positionAt('found'),
    left: positionAt('left'),
    plans: [...newestBySide.values()].map(planFacts),
    legLengthOption: legLength?.chosenOption ?? null,
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

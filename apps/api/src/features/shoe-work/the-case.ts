import { recordAudit, readClock, type ShoeWork, type TenantContext } from '@studio/database';
import {
  afterShoeWork,
  consentTexts,
  missingSteps,
  possibleSteps,
  procedures,
  reachableStates,
  type DoneStep,
  type Procedure,
  type ShoeWorkState,
  type Step,
} from '@studio/shoe-work';
import type { EntityManager } from 'typeorm';
import { found, StaleVersion } from '../../http/problem.js';
import { toStepsToDo } from './procedure.dto.js';
import type { JudgedShoeResponse, ShoeWorkResponse, SignedConsentResponse } from './shoe-work.dto.js';
import { StateImpossible } from './shoe-work.errors.js';
import * as queries from './shoe-work.queries.js';

/** A case that is worked on: its row is locked, and its state is that of now. */
export interface Held {
  readonly row: ShoeWork;
  readonly state: ShoeWorkState;
  readonly procedure: Procedure;
  readonly steps: readonly queries.StepRow[];
  readonly now: Date;
}

/**
 * @throws NotFound when the studio has no such case
 * @throws StaleVersion when it is not at the version the change was made from
 */
export async function hold(
  tx: EntityManager,
  key: { studioId: string; id: string },
  version?: number,
): Promise<Held> {
  const row = found(await queries.findCaseForUpdate(tx, key));
  if (version !== undefined && row.version !== version) throw new StaleVersion();
  const now = await readClock(tx);
  return {
    ...{ row, now, state: queries.stateNow(now, row), procedure: procedureOf(row) },
    steps: await queries.listSteps(tx, { studioId: key.studioId, shoeWorkId: key.id }),
  };
}

const stageBefore: Partial<Record<ShoeWorkState, Step['stage']>> = { curing: 'work', collected: 'hand_over' };

/** @throws StateImpossible with the states it may come to, and the steps that are in the way */
export function requireReachable(held: Held, to: ShoeWorkState): void {
  const { state, procedure, steps, row } = held;
  const allowed = reachableStates(procedure, { state, fixing: row.fixing }, steps);
  if (allowed.includes(to)) return;
  const stage = stageBefore[to];
  const missing = stage === undefined ? [] : missingSteps(procedure, row.fixing, steps, stage);
  throw new StateImpossible({ state, allowed, missingSteps: missing });
}

/** Brings the case to a state, with its history. */
export async function bringTo(
  tx: EntityManager,
  ctx: TenantContext,
  { row }: Pick<Held, 'row'>,
  to: ShoeWorkState,
  fields: Parameters<typeof queries.updateCase>[2] & { reason?: string } = {},
): Promise<void> {
  const { reason = null, ...columns } = fields;
  const { studioId, id: shoeWorkId } = row;
  await queries.updateCase(tx, row, { ...columns, state: to });
  await queries.insertChange(tx, {
    studioId,
    shoeWorkId,
    state: to,
    reason,
    changedBy: ctx.userId as string,
  });
  await recordAudit(tx, ctx, { action: `shoe-work.${to.replaceAll('_', '-')}`, recordId: shoeWorkId });
}

export async function readCase(
  tx: EntityManager,
  key: { studioId: string; id: string },
): Promise<ShoeWorkResponse> {
  const row = found(await queries.findCase(tx, key));
  const { fixing, toCollectAt } = row;
  const of = { studioId: key.studioId, shoeWorkId: key.id };
  const state = queries.stateNow(await readClock(tx), row);
  const procedure = procedureOf(row);
  const steps = await queries.listSteps(tx, of);
  const since = await queries.curesSince(tx, key);
  return {
    id: row.id,
    clientId: row.clientId,
    fitSessionId: row.fitSessionId,
    shoeId: row.shoeId,
    appointmentId: row.appointmentId,
    way: row.way,
    fixing,
    state,
    allowed: reachableStates(procedure, { state, fixing }, steps),
    shoe: row.shoeFacts as JudgedShoeResponse,
    consent: await readConsent(tx, of),
    procedureVersion: row.procedureVersion,
    steps,
    next: toStepsToDo(procedure, possibleSteps(procedure, { state, fixing }, steps)),
    curing:
      since === null || toCollectAt === null || row.cureSource === null
        ? null
        : {
            benchId: row.benchId,
            from: since.toISOString(),
            until: toCollectAt.toISOString(),
            source: row.cureSource,
          },
    toCollectAt: toCollectAt?.toISOString() ?? null,
    parts: await queries.listParts(tx, of),
    cautions: row.begunAt === null ? [] : [...afterShoeWork],
    changes: (await queries.listChanges(tx, of)).map((change) => ({
      state: change.state,
      reason: change.reason,
      changedBy: change.changedBy,
      changedAt: change.createdAt.toISOString(),
    })),
    openedBy: row.openedBy,
    openedAt: row.createdAt.toISOString(),
    version: row.version,
  };
}

async function readConsent(
  tx: EntityManager,
  of: { studioId: string; shoeWorkId: string },
): Promise<SignedConsentResponse | null> {
  const signed = await queries.findConsent(tx, of);
  if (!signed) return null;
  const { textVersion, language, signedName, guardianId, takenBy, createdAt } = signed;
  const text = consentTexts.find(({ version }) => version === textVersion)?.texts[language] ?? '';
  return { signedName, textVersion, language, text, guardianId, takenBy, signedAt: createdAt.toISOString() };
}

function procedureOf({ procedureVersion }: ShoeWork): Procedure {
  const procedure = procedures.find(({ version }) => version === procedureVersion);
  if (!procedure) throw new TypeError(`there is no procedure ${procedureVersion}`);
  return procedure;
}

export const isSame = (one: DoneStep, other: DoneStep): boolean =>
  one.step === other.step && one.shoe === other.shoe;

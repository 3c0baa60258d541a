import { Injectable } from '@nestjs/common';
import {
  cancelMessages,
  orderMessage,
  recordAudit,
  TenantTransaction,
  violates,
  type TenantContext,
} from '@studio/database';
import {
  isBonded,
  missingSteps,
  possibleSteps,
  stepsFor,
  valueProblems,
  type DoneStep,
  type Step,
} from '@studio/shoe-work';
import { isDeepStrictEqual } from 'node:util';
import type { EntityManager } from 'typeorm';
import { found, InvalidRequest, UnknownReference } from '../../http/problem.js';
import { makeRoomOnBench } from '../appointments/index.js';
import type { CureShoeWorkRequest, ShoeWorkResponse, ShoeWorkStepRequest } from './shoe-work.dto.js';
import { BenchTaken, StepDoneOtherwise, StepImpossible } from './shoe-work.errors.js';
import * as queries from './shoe-work.queries.js';
import { requireStillSound } from './shoe-work.service.js';
import { settle } from './settle.js';
import { bringTo, hold, isSame, readCase, requireReachable, type Held } from './the-case.js';

const longestCureMs = 30 * 86_400_000;

@Injectable()
export class ShoeWorkStepsService {
  constructor(private readonly transaction: TenantTransaction) {}

  /** The same step written down twice is written down once. */
  async writeDown(
    ctx: TenantContext,
    id: string,
    what: DoneStep,
    { values, photoIds = [] }: ShoeWorkStepRequest,
  ): Promise<ShoeWorkResponse> {
    const { studioId } = ctx;
    const key = { studioId, id };
    return this.transaction.run(ctx, async (tx) => {
      const held = await hold(tx, key);
      const { row, state, procedure, steps } = held;
      const { fixing } = row;
      const step = found(stepsFor(procedure, fixing).find((item) => item.id === what.step) ?? null);
      const done = steps.find((item) => isSame(item, what));
      if (done) {
        if (!isDeepStrictEqual([done.values, done.photoIds], [values, [...photoIds].sort()])) {
          throw new StepDoneOtherwise();
        }
        return readCase(tx, key);
      }
      const possible = possibleSteps(procedure, { state, fixing }, steps);
      if (!possible.some((item) => isSame(item, what))) throw new StepImpossible(state, possible);
      await requireWhole(tx, { studioId, shoeId: row.shoeId }, step, values, photoIds);
      if (step.irreversible) await requireStillSound(tx, row);

      const doneBy = ctx.userId as string;
      await queries.insertStep(tx, { studioId, shoeWorkId: id, ...what, values, doneBy }, photoIds);
      await recordAudit(tx, ctx, { action: 'shoe-work.step', recordId: id, fields: [what.step] });
      await this.goOn(tx, ctx, held, step, [...steps, what]);
      return readCase(tx, key);
    });
  }

  /** It lies there to cure; told again, it cures on until then. */
  async cure(
    ctx: TenantContext,
    id: string,
    version: number,
    { benchId, until, source }: CureShoeWorkRequest,
  ): Promise<ShoeWorkResponse> {
    const { studioId } = ctx;
    const key = { studioId, id };
    const toCollectAt = new Date(until);
    try {
      return await this.transaction.run(ctx, async (tx) => {
        const held = await hold(tx, key, version);
        const { now: from } = held;
        if (toCollectAt <= from || toCollectAt.getTime() > from.getTime() + longestCureMs) {
          throw new InvalidRequest([{ field: 'until', message: 'must lie within 30 days from now' }]);
        }
        requireReachable(held, 'curing');
        const { clientId, appointmentId } = held.row;
        if (benchId !== null) {
          if (!(await queries.benchExists(tx, { studioId, id: benchId })))
            throw new UnknownReference('benchId');
          const during = { start: from.getTime(), end: toCollectAt.getTime() };
          await makeRoomOnBench(tx, ctx, { benchId, during });
        }
        const curing = `[${from.toISOString()},${toCollectAt.toISOString()})`;
        await bringTo(tx, ctx, held, 'curing', { benchId, curing, cureSource: source, toCollectAt });
        await settle(tx, key, 'it cures longer');
        if (appointmentId !== null) {
          await cancelMessages(tx, {
            ...{ studioId, subjectId: appointmentId, templates: ['curing_done'] },
            because: 'told of the shoe work instead',
          });
        }
        await orderMessage(tx, {
          ...{ studioId, clientId, template: 'shoe_work_cured', subjectId: id, notBefore: toCollectAt },
        });
        return readCase(tx, key);
      });
    } catch (error) {
      if (benchId === null || !violates(error, 'bench_times_free')) throw error;
      const wish = { studioId, benchId, until: toCollectAt, exceptId: id };
      throw new BenchTaken(await this.transaction.read(ctx, (sql) => queries.findBenchClash(sql, wish)));
    }
  }

  /** The last step of its stage, of both shoes, brings the case on by itself. */
  private async goOn(
    tx: EntityManager,
    ctx: TenantContext,
    held: Held,
    { stage, irreversible }: Step,
    done: readonly DoneStep[],
  ): Promise<void> {
    const { row, state, procedure, now } = held;
    const { fixing } = row;
    const begun = irreversible && row.begunAt === null ? { begunAt: now, begunBy: ctx.userId as string } : {};
    const isLast = missingSteps(procedure, fixing, done, stage).length === 0;
    if (state === 'consented') await bringTo(tx, ctx, held, 'in_work', begun);
    else if (stage === 'work' && isLast && !isBonded(fixing)) {
      await bringTo(tx, ctx, held, 'to_collect', { ...begun, toCollectAt: now });
    } else if (stage === 'riding' && isLast) await bringTo(tx, ctx, held, 'done');
    else await queries.updateCase(tx, row, begun);
  }
}

/** @throws InvalidRequest, UnknownReference naming what is missing or wrong of a step */
async function requireWhole(
  tx: EntityManager,
  of: { studioId: string; shoeId: string },
  step: Step,
  values: Record<string, unknown>,
  photoIds: readonly string[],
): Promise<void> {
  const noPhoto =
    step.photographed && photoIds.length === 0
      ? [{ field: 'photoIds', message: 'must name a photograph of the shoes' }]
      : [];
  const problems = [...valueProblems(step, values), ...noPhoto];
  if (problems.length > 0) throw new InvalidRequest(problems);
  if (photoIds.length === 0) return;
  if ((await queries.countPhotos(tx, { ...of, fileIds: photoIds })) < photoIds.length) {
    throw new UnknownReference('photoIds');
  }
}

import { Injectable } from '@nestjs/common';
import {
  recordAudit,
  TenantTransaction,
  violates,
  type ShoeWork,
  type TenantContext,
} from '@studio/database';
import {
  newestConsentText,
  newestProcedure,
  shoeWorkFeasibility,
  shoeWorkWays,
  type Fixing,
  type ShoeWorkFacts,
} from '@studio/shoe-work';
import type { EntityManager } from 'typeorm';
import { found, UnknownReference } from '../../http/problem.js';
import { consentingGuardian } from '../clients/index.js';
import { findShoe, requireShoeInUse } from '../equipment/index.js';
import { findPermission } from '../screenings/index.js';
import type { ShoeWorkFeasibilityQuery, ShoeWorkFeasibilityResponse } from './procedure.dto.js';
import { asked, factsOf, requireSound } from './require-sound.js';
import type {
  AbandonShoeWorkRequest,
  OpenShoeWorkRequest,
  ShoeWorkConsentRequest,
  ShoeWorkPartsRequest,
  ShoeWorkResponse,
} from './shoe-work.dto.js';
import { CaseOpen, ConsentTextSuperseded, NotFixedSo } from './shoe-work.errors.js';
import * as queries from './shoe-work.queries.js';
import { settle } from './settle.js';
import { bringTo, hold, readCase, requireReachable } from './the-case.js';

@Injectable()
export class ShoeWorkService {
  constructor(private readonly transaction: TenantTransaction) {}

  /** What is not known of the shoes, or of the client, is named; it never counts as well. */
  async feasibility(
    ctx: TenantContext,
    { clientId, shoeId }: { clientId: string; shoeId: string },
    query: ShoeWorkFeasibilityQuery,
  ): Promise<ShoeWorkFeasibilityResponse> {
    const { studioId } = ctx;
    return this.transaction.run(ctx, async (tx) => {
      const shoe = found(await findShoe(tx, { studioId, clientId, id: shoeId }));
      const looked = { cracked: isYes(query.cracked), recalled: isYes(query.recalled) };
      const inForce = await findPermission(tx, { studioId, clientId });
      const asks = asked('bonded');
      return {
        ways: shoeWorkFeasibility(factsOf(shoe, looked)).map((found) => ({
          ...found,
          fixings: fixingsOf(found.way),
        })),
        screened: inForce !== null,
        barred: asks.filter((activity) => inForce?.permission.barred.includes(activity) ?? true),
      };
    });
  }

  async open(
    ctx: TenantContext,
    fitSessionId: string,
    request: OpenShoeWorkRequest,
  ): Promise<ShoeWorkResponse> {
    const { studioId } = ctx;
    const { way, fixing, cracked, recalled, appointmentId = null } = request;
    if (!fixingsOf(way).includes(fixing)) throw new NotFixedSo(fixingsOf(way));
    try {
      return await this.transaction.runOnce(ctx, async (tx) => {
        const session = found(await queries.findSession(tx, { studioId, id: fitSessionId }));
        const { clientId } = session;
        const shoe = await requireShoeInUse(tx, {
          studioId,
          clientId,
          shoeId: request.shoeId ?? session.shoeId,
        });
        if (appointmentId !== null && !(await queries.isVisitOf(tx, { studioId, clientId, appointmentId }))) {
          throw new UnknownReference('appointmentId');
        }
        const facts = factsOf(shoe, { cracked, recalled });
        await requireSound(tx, { studioId, clientId, way, fixing }, facts);
        const openedBy = ctx.userId as string;
        const id = await queries.insertCase(tx, {
          ...{ studioId, clientId, fitSessionId, shoeId: shoe.id, appointmentId, way, fixing, openedBy },
          ...{ shoeFacts: facts, procedureVersion: newestProcedure.version },
        });
        await queries.insertChange(tx, {
          ...{ studioId, shoeWorkId: id, state: 'opened', reason: null, changedBy: openedBy },
        });
        await recordAudit(tx, ctx, { action: 'shoe-work.open', recordId: id });
        return readCase(tx, { studioId, id });
      });
    } catch (error) {
      throw violates(error, 'shoe_works_one_open') ? new CaseOpen() : error;
    }
  }

  async get(ctx: TenantContext, id: string): Promise<ShoeWorkResponse> {
    return this.transaction.run(ctx, (tx) => readCase(tx, { studioId: ctx.studioId, id }));
  }

  async consent(
    ctx: TenantContext,
    id: string,
    version: number,
    request: ShoeWorkConsentRequest,
  ): Promise<ShoeWorkResponse> {
    const { studioId } = ctx;
    if (request.textVersion !== newestConsentText.version) {
      throw new ConsentTextSuperseded(newestConsentText.version);
    }
    return this.transaction.run(ctx, async (tx) => {
      const held = await hold(tx, { studioId, id }, version);
      requireReachable(held, 'consented');
      await requireStillSound(tx, held.row);
      const { clientId } = held.row;
      const guardianId = await consentingGuardian(tx, { studioId, clientId });
      const takenBy = ctx.userId as string;
      await queries.insertConsent(tx, { studioId, shoeWorkId: id, ...request, guardianId, takenBy });
      await bringTo(tx, ctx, held, 'consented');
      return readCase(tx, { studioId, id });
    });
  }

  /** All parts that were used, in place of what was said before. */
  async setParts(
    ctx: TenantContext,
    id: string,
    version: number,
    { parts }: ShoeWorkPartsRequest,
  ): Promise<ShoeWorkResponse> {
    const { studioId } = ctx;
    try {
      return await this.transaction.run(ctx, async (tx) => {
        const { row } = await hold(tx, { studioId, id }, version);
        await queries.replaceParts(tx, { studioId, shoeWorkId: id, recordedBy: ctx.userId as string }, parts);
        await queries.updateCase(tx, row, {});
        await recordAudit(tx, ctx, { action: 'shoe-work.parts', recordId: id });
        return readCase(tx, { studioId, id });
      });
    } catch (error) {
      throw violates(error, 'shoe_work_parts_part_id_fkey') ? new UnknownReference('parts.partId') : error;
    }
  }

  async abandon(
    ctx: TenantContext,
    id: string,
    version: number,
    { reason }: AbandonShoeWorkRequest,
  ): Promise<ShoeWorkResponse> {
    const key = { studioId: ctx.studioId, id };
    return this.transaction.run(ctx, async (tx) => {
      const held = await hold(tx, key, version);
      requireReachable(held, 'abandoned');
      await bringTo(tx, ctx, held, 'abandoned', { reason });
      await settle(tx, key, 'the work was abandoned');
      return readCase(tx, key);
    });
  }
}

/**
 * By the shoes as they are recorded now and what was looked at when the case was opened.
 *
 * @throws NotFeasible, CannotTell, NotPermitted
 */
export async function requireStillSound(tx: EntityManager, row: ShoeWork): Promise<void> {
  const { studioId, clientId, shoeId } = row;
  const shoe = found(await findShoe(tx, { studioId, clientId, id: shoeId }));
  await requireSound(tx, row, factsOf(shoe, row.shoeFacts as ShoeWorkFacts));
}

const fixingsOf = (id: string): readonly Fixing[] =>
  shoeWorkWays.find(({ way }) => way.id === id)?.fixings ?? [];

const isYes = (answer: 'yes' | 'no' | undefined): boolean | null =>
  answer === undefined ? null : answer === 'yes';

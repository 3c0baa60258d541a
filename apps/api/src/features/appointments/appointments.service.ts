import { Injectable } from '@nestjs/common';
import {
  announce,
  offerFreedTime,
  readClock,
  recordAudit,
  TenantTransaction,
  together,
  type Prerequisite,
  type TenantContext,
} from '@studio/database';
import type { WebhookEventType } from '@studio/job-contracts';
import { randomUUID } from 'node:crypto';
import type { EntityManager } from 'typeorm';
import { found, InvalidRequest, StaleVersion } from '../../http/problem.js';
import { pageOf, pageSize } from '../../http/paging.js';
import { refuseClosed } from '../clients/index.js';
import { moveFollowUpsWith } from '../follow-ups/index.js';
import { isPermitted, requirePermission } from '../screenings/index.js';
import { appointmentActions, type AppointmentAction } from './appointment-actions.js';
import { toResponse } from './appointment-response.js';
import type {
  AppointmentChangeResponse,
  AppointmentPage,
  AppointmentResponse,
  CancelAppointmentRequest,
  CreateAppointmentRequest,
  CreateSeriesRequest,
  ListAppointmentsQuery,
  MoveAppointmentRequest,
  SeriesResponse,
} from './appointments.dto.js';
import { NotPossible, NotYet, PrerequisitesMissing, SeriesOutOfOrder } from './appointments.errors.js';
import * as queries from './appointments.queries.js';
import { placeVisit } from './place-visit.js';
import { makeRoom, tellingClash } from './reservations.js';
import { tellOfBooking, tellOfCancellation, tellOfMove } from './tell-client.js';

@Injectable()
export class AppointmentsService {
  constructor(private readonly transaction: TenantTransaction) {}

  /** Book a visit, or only hold its time. */
  async create(ctx: TenantContext, request: CreateAppointmentRequest): Promise<AppointmentResponse> {
    const { studioId } = ctx;
    const { clientId, serviceId, holdMinutes, tellClient: tell = true } = request;
    return this.taking(ctx, null, (want) =>
      this.transaction.runOnce(ctx, async (tx) => {
        const [, , slot] = await together([
          refuseClosed(tx, studioId, clientId),
          requirePermission(tx, { studioId, clientId }, 'booking'),
          placeVisit(tx, studioId, request, null),
        ]);
        want([slot]);
        await makeRoom(tx, ctx, [slot]);
        const id = await queries.insertAppointment(tx, slot, { clientId, serviceId }, holdMinutes);
        const action = holdMinutes === undefined ? 'create' : 'hold';
        if (holdMinutes !== undefined) await this.offerWhenReleased(tx, studioId, holdMinutes);
        const visit = await this.written(tx, ctx, id, { action });
        if (visit.state === 'booked') await tellOfBooking(tx, visit, { studioId, tell });
        return toResponse(visit);
      }),
    );
  }

  /** Book visits that belong together: all of them, or none. */
  async createSeries(ctx: TenantContext, request: CreateSeriesRequest): Promise<SeriesResponse> {
    const { studioId } = ctx;
    const { clientId, visits, tellClient: tell = true } = request;
    return this.taking(ctx, null, (want) =>
      this.transaction.runOnce(ctx, async (tx) => {
        const [, , ...slots] = await together([
          refuseClosed(tx, studioId, clientId),
          requirePermission(tx, { studioId, clientId }, 'booking'),
          ...visits.map((visit) => placeVisit(tx, studioId, visit, null)),
        ]);
        checkOrder(slots);
        want(slots);
        await makeRoom(tx, ctx, slots);
        const seriesId = randomUUID();
        const written: AppointmentResponse[] = [];
        for (const [index, slot] of slots.entries()) {
          const serviceId = (visits[index] as CreateSeriesRequest['visits'][number]).serviceId;
          const row = { clientId, serviceId, seriesId, seriesPosition: index + 1 };
          const id = await queries.insertAppointment(tx, slot, row, undefined);
          const visit = await this.written(tx, ctx, id, { action: 'create' });
          await tellOfBooking(tx, visit, { studioId, tell });
          written.push(toResponse(visit));
        }
        return { id: seriesId, visits: written };
      }),
    );
  }

  async get(ctx: TenantContext, id: string): Promise<AppointmentResponse> {
    const key = { studioId: ctx.studioId, id };
    return toResponse(found(await this.transaction.read(ctx, (sql) => queries.findAppointment(sql, key))));
  }

  async getSeries(ctx: TenantContext, seriesId: string): Promise<SeriesResponse> {
    const key = { studioId: ctx.studioId, seriesId };
    const visits = await this.transaction.read(ctx, (sql) => queries.listSeries(sql, key));
    return found(visits.length === 0 ? null : { id: seriesId, visits: visits.map(toResponse) });
  }

  async list(ctx: TenantContext, query: ListAppointmentsQuery): Promise<AppointmentPage> {
    if (Date.parse(query.to) <= Date.parse(query.from)) {
      throw new InvalidRequest([{ field: 'to', message: 'must be later than from' }]);
    }
    const limit = pageSize(query);
    const { from, to, fitterId = null, roomId = null, clientId = null, after = null } = query;
    const rows = await this.transaction.read(ctx, (sql) =>
      queries.listAppointments(sql, {
        studioId: ctx.studioId,
        ...{ from, to, fitterId, roomId, clientId, after, limit: limit + 1 },
      }),
    );
    return pageOf(rows.map(toResponse), limit);
  }

  async history(ctx: TenantContext, id: string): Promise<AppointmentChangeResponse[]> {
    const key = { studioId: ctx.studioId, id };
    return this.transaction.read(ctx, async (sql) => {
      found(await queries.findAppointment(sql, key));
      return queries.listChanges(sql, key);
    });
  }

  async move(
    ctx: TenantContext,
    id: string,
    version: number,
    request: MoveAppointmentRequest,
  ): Promise<AppointmentResponse> {
    const { studioId } = ctx;
    return this.taking(ctx, id, (want) =>
      this.transaction.run(ctx, async (tx) => {
        const now = await this.possible(tx, { studioId, id }, version, 'move');
        const slot = await this.movedSlot(tx, studioId, now, request);
        want([slot]);
        await makeRoom(tx, ctx, [slot]);
        if (!(await queries.updateSlot(tx, { studioId, id, version }, slot))) throw new StaleVersion();
        const startsAt = new Date(slot.during.start);
        await moveFollowUpsWith(tx, ctx, { appointmentId: id, startsAt });
        await offerFreedTime(tx, { studioId });
        const after = await this.written(tx, ctx, id, { action: 'move' });
        await tellOfMove(tx, { before: now, after }, { studioId, tell: request.tellClient ?? true });
        return toResponse(after);
      }),
    );
  }

  async cancel(
    ctx: TenantContext,
    id: string,
    version: number,
    { reason, by = 'client', tellClient: tell = true }: CancelAppointmentRequest,
  ): Promise<AppointmentResponse> {
    return this.changeState(ctx, id, version, 'cancel', {
      reason,
      cancellation: (facts) => ({ cancelReason: reason, cancelledBy: by, cancelledLate: facts.late }),
      tell,
    });
  }

  async checkIn(ctx: TenantContext, id: string, version: number): Promise<AppointmentResponse> {
    return this.changeState(ctx, id, version, 'check_in', {
      check: async ({ prerequisites, intakeTaken }, { clientId }, tx) => {
        const missing: Prerequisite[] = [];
        if (prerequisites.includes('intake') && !intakeTaken) missing.push('intake');
        if (
          prerequisites.includes('clearance') &&
          !(await isPermitted(tx, { studioId: ctx.studioId, clientId }, 'riding'))
        )
          missing.push('clearance');
        if (missing.length > 0) throw new PrerequisitesMissing(missing);
      },
    });
  }

  async markNoShow(ctx: TenantContext, id: string, version: number): Promise<AppointmentResponse> {
    return this.changeState(ctx, id, version, 'mark_no_show', {
      check: ({ begun }) => {
        if (!begun) throw new NotYet();
      },
    });
  }

  /** A change that only follows the table of actions. */
  async act(
    ctx: TenantContext,
    id: string,
    version: number,
    action: 'book' | 'complete' | 'reinstate',
  ): Promise<AppointmentResponse> {
    return this.changeState(ctx, id, version, action, {});
  }

  /**
   * As part of another use case: book what is held.
   *
   * @returns whether it was still held
   */
  async bookHeld(tx: EntityManager, ctx: TenantContext, id: string): Promise<boolean> {
    const now = await queries.findAppointment(tx, { studioId: ctx.studioId, id });
    if (now?.state !== 'held') return false;
    await this.changeStateIn(tx, ctx, { id, version: now.version, action: 'book' }, {});
    return true;
  }

  /** As part of another use case: let go what is held, if it still is. */
  async releaseHeld(tx: EntityManager, ctx: TenantContext, id: string, reason: string): Promise<void> {
    const now = await queries.findAppointment(tx, { studioId: ctx.studioId, id });
    if (now?.state !== 'held') return;
    const cancellation = { cancelReason: reason, cancelledBy: 'client', cancelledLate: false } as const;
    const change = { id, version: now.version, action: 'cancel' } as const;
    await this.changeStateIn(tx, ctx, change, { reason, cancellation: () => cancellation });
  }

  private async changeState(
    ctx: TenantContext,
    id: string,
    version: number,
    action: Exclude<AppointmentAction, 'move'>,
    options: StateChange,
  ): Promise<AppointmentResponse> {
    return this.transaction.run(ctx, (tx) => this.changeStateIn(tx, ctx, { id, version, action }, options));
  }

  private async changeStateIn(
    tx: EntityManager,
    ctx: TenantContext,
    change: { id: string; version: number; action: Exclude<AppointmentAction, 'move'> },
    options: StateChange,
  ): Promise<AppointmentResponse> {
    const { studioId } = ctx;
    const { id, version, action } = change;
    const now = await this.possible(tx, { studioId, id }, version, action);
    const facts = await queries.visitFacts(tx, { studioId, id });
    await options.check?.(facts, now, tx);
    const { to } = appointmentActions[action];
    const key = { studioId, id, version };
    if (!(await queries.updateState(tx, key, to, options.cancellation?.(facts)))) throw new StaleVersion();
    if (action === 'cancel' || action === 'reinstate') {
      const startsAt = action === 'cancel' ? null : new Date(now.startsAt);
      await moveFollowUpsWith(tx, ctx, { appointmentId: id, startsAt });
    }
    if (action === 'cancel') await offerFreedTime(tx, { studioId });
    const reason = options.reason === undefined ? {} : { reason: options.reason };
    const after = await this.written(tx, ctx, id, { action, ...reason });
    const telling = { studioId, tell: options.tell ?? true };
    if (action === 'book') await tellOfBooking(tx, after, telling);
    if (action === 'cancel') await tellOfCancellation(tx, { before: now, after }, telling);
    return toResponse(after);
  }

  private async offerWhenReleased(tx: EntityManager, studioId: string, holdMinutes: number): Promise<void> {
    const now = await readClock(tx);
    await offerFreedTime(tx, { studioId, at: new Date(now.getTime() + holdMinutes * 60_000) });
  }

  /** @throws NotPossible in a state that does not allow the action, whatever the version */
  private async possible(
    tx: EntityManager,
    key: { studioId: string; id: string },
    version: number,
    action: AppointmentAction,
  ): Promise<queries.AppointmentRecord> {
    const now = found(await queries.findAppointment(tx, key));
    if (!toResponse(now).allowed.includes(action)) throw new NotPossible(now.state);
    if (now.version !== version) throw new StaleVersion();
    return now;
  }

  private async movedSlot(
    tx: EntityManager,
    studioId: string,
    now: queries.AppointmentRecord,
    request: MoveAppointmentRequest,
  ): Promise<queries.Slot> {
    const { fitterId = now.fitterId, roomId = now.roomId, benchId = now.benchId } = request;
    const { startsAt, evenOutsideHours } = request;
    const wish = { serviceId: now.serviceId, fitterId, roomId, benchId, startsAt, evenOutsideHours };
    const slot = await placeVisit(tx, studioId, wish, now.id);
    if (now.seriesId !== null) {
      const series = await queries.listSeries(tx, { studioId, seriesId: now.seriesId });
      checkOrder(
        series
          .filter(({ state }) => state !== 'cancelled')
          .map((visit) => (visit.id === now.id ? slot : spansOf(visit))),
      );
    }
    return slot;
  }

  private async written(
    tx: EntityManager,
    ctx: TenantContext,
    id: string,
    { action, reason = null }: { action: string; reason?: string | null },
  ): Promise<queries.AppointmentRecord> {
    const key = { studioId: ctx.studioId, id };
    const type = eventOf[action];
    const [visit] = await together([
      queries.findAppointment(tx, key),
      queries.insertChange(tx, key, { action, reason, changedBy: ctx.userId }),
      recordAudit(tx, ctx, { action: `appointments.${action.replaceAll('_', '-')}`, recordId: id }),
      ...(type === undefined ? [] : [announce(tx, { studioId: ctx.studioId, type, subjectId: id })]),
    ]);
    return found(visit);
  }

  private taking<T>(
    ctx: TenantContext,
    exceptId: string | null,
    work: (want: (slots: readonly queries.Slot[]) => void) => Promise<T>,
  ): Promise<T> {
    return tellingClash({ read: (look) => this.transaction.read(ctx, look), exceptId, work });
  }
}

interface StateChange {
  readonly reason?: string;
  readonly tell?: boolean;
  readonly check?: (
    facts: queries.VisitFacts,
    now: queries.AppointmentRecord,
    tx: EntityManager,
  ) => Promise<void> | void;
  readonly cancellation?: (facts: queries.VisitFacts) => Parameters<typeof queries.updateState>[3];
}

/** What API clients are told of; that a time is only held is not of them. */
const eventOf: Readonly<Record<string, WebhookEventType>> = {
  create: 'appointment.booked',
  book: 'appointment.booked',
  move: 'appointment.moved',
  cancel: 'appointment.cancelled',
};

type Spans = Pick<queries.Slot, 'during' | 'curing'>;

function spansOf(visit: queries.AppointmentRecord): Spans {
  const end = Date.parse(visit.endsAt);
  return {
    during: { start: Date.parse(visit.startsAt), end },
    curing: visit.curedAt === null ? null : { start: end, end: Date.parse(visit.curedAt) },
  };
}

/** @throws SeriesOutOfOrder when a visit begins before the one before it is over, its curing included */
function checkOrder(visits: readonly Spans[]): void {
  let over = -Infinity;
  for (const [index, { during, curing }] of visits.entries()) {
    if (during.start < over) throw new SeriesOutOfOrder(index);
    over = curing?.end ?? during.end;
  }
}

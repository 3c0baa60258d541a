import { Injectable } from '@nestjs/common';
import { recordAudit, TenantTransaction, violates, type TenantContext } from '@studio/database';
import type { EntityManager } from 'typeorm';
import { found, InvalidRequest, StaleVersion, UnknownReference } from '../../http/problem.js';
import { pageOf, pageSize } from '../../http/paging.js';
import { findService } from '../catalogue/index.js';
import { requirePermission } from '../screenings/index.js';
import type {
  AppointmentPage,
  AppointmentResponse,
  CancelAppointmentRequest,
  CreateAppointmentRequest,
  ListAppointmentsQuery,
  MoveAppointmentRequest,
} from './appointments.dto.js';
import {
  AppointmentInThePast,
  AppointmentNotBooked,
  AppointmentOverlap,
  NotAFitter,
} from './appointments.errors.js';
import * as queries from './appointments.queries.js';

@Injectable()
export class AppointmentsService {
  constructor(private readonly transaction: TenantTransaction) {}

  async create(ctx: TenantContext, request: CreateAppointmentRequest): Promise<AppointmentResponse> {
    const { studioId } = ctx;
    let slot: queries.Slot | undefined;
    return this.guarded(
      ctx,
      () => slot,
      null,
      async (tx) => {
        slot = await this.slot(tx, studioId, request);
        const { clientId, serviceId } = request;
        await requirePermission(tx, { studioId, clientId }, 'booking');
        const id = await queries.insertAppointment(tx, { ...slot, clientId, serviceId });
        await recordAudit(tx, ctx, { action: 'appointments.create', recordId: id });
        return found(await queries.findAppointment(tx, { studioId, id }));
      },
    );
  }

  async get(ctx: TenantContext, id: string): Promise<AppointmentResponse> {
    const key = { studioId: ctx.studioId, id };
    return found(await this.transaction.read(ctx, (sql) => queries.findAppointment(sql, key)));
  }

  async list(ctx: TenantContext, query: ListAppointmentsQuery): Promise<AppointmentPage> {
    if (Date.parse(query.to) <= Date.parse(query.from)) {
      throw new InvalidRequest([{ field: 'to', message: 'must be later than from' }]);
    }
    const limit = pageSize(query);
    const { from, to, after = null } = query;
    const rows = await this.transaction.read(ctx, (sql) =>
      queries.listAppointments(sql, { studioId: ctx.studioId, from, to, after, limit: limit + 1 }),
    );
    return pageOf(rows, limit);
  }

  async move(ctx: TenantContext, id: string, request: MoveAppointmentRequest): Promise<AppointmentResponse> {
    const key = { studioId: ctx.studioId, id };
    let slot: queries.Slot | undefined;
    return this.guarded(
      ctx,
      () => slot,
      id,
      async (tx) => {
        const now = await this.booked(tx, key, request.version);
        slot = await this.slot(tx, ctx.studioId, {
          serviceId: now.serviceId,
          fitterId: request.fitterId ?? now.fitterId,
          roomId: request.roomId ?? now.roomId,
          startsAt: request.startsAt,
        });
        if (!(await queries.moveAppointment(tx, { ...key, version: request.version }, slot)))
          throw new StaleVersion();
        await recordAudit(tx, ctx, {
          action: 'appointments.move',
          recordId: id,
          fields: ['startsAt', 'fitterId', 'roomId'],
        });
        return found(await queries.findAppointment(tx, key));
      },
    );
  }

  async cancel(
    ctx: TenantContext,
    id: string,
    request: CancelAppointmentRequest,
  ): Promise<AppointmentResponse> {
    const key = { studioId: ctx.studioId, id };
    return this.transaction.run(ctx, async (tx) => {
      await this.booked(tx, key, request.version);
      if (!(await queries.cancelAppointment(tx, { ...key, version: request.version }, request.reason))) {
        throw new StaleVersion();
      }
      await recordAudit(tx, ctx, {
        action: 'appointments.cancel',
        recordId: id,
        fields: ['state', 'reason'],
      });
      return found(await queries.findAppointment(tx, key));
    });
  }

  private async booked(
    tx: EntityManager,
    key: { studioId: string; id: string },
    version: number,
  ): Promise<AppointmentResponse> {
    const now = found(await queries.findAppointment(tx, key));
    if (now.state !== 'booked') throw new AppointmentNotBooked();
    if (now.version !== version) throw new StaleVersion();
    return now;
  }

  private async slot(
    tx: EntityManager,
    studioId: string,
    wish: { serviceId: string; fitterId: string; roomId: string; startsAt: string },
  ): Promise<queries.Slot> {
    const service = await findService(tx, studioId, wish.serviceId);
    if (!service) throw new UnknownReference('serviceId');
    const startsAtMs = Date.parse(wish.startsAt);
    if (!(await queries.isFitter(tx, studioId, wish.fitterId))) throw new NotAFitter();
    const startsAt = new Date(startsAtMs).toISOString();
    if (await queries.hasPassed(tx, startsAt)) throw new AppointmentInThePast();
    return {
      studioId,
      fitterId: wish.fitterId,
      roomId: wish.roomId,
      startsAt,
      endsAt: new Date(startsAtMs + service.durationMinutes * 60_000).toISOString(),
    };
  }

  /** The database decides who was first; what stood in the way is looked up afterwards, for the answer. */
  private async guarded<T>(
    ctx: TenantContext,
    slot: () => queries.Slot | undefined,
    exceptId: string | null,
    work: (tx: EntityManager) => Promise<T>,
  ): Promise<T> {
    try {
      return await this.transaction.run(ctx, work);
    } catch (error) {
      const taken = violates(error, 'appointments_fitter_free') || violates(error, 'appointments_room_free');
      const wanted = slot();
      if (!taken || !wanted) throw error;
      throw new AppointmentOverlap(
        await this.transaction.read(ctx, (sql) => queries.findClash(sql, { ...wanted, exceptId })),
      );
    }
  }
}

import { Injectable } from '@nestjs/common';
import { StudioHours } from '@studio/availability';
import {
  offerFreedTime,
  recordAudit,
  TenantTransaction,
  type HoursExceptionRow,
  type TenantContext,
  type WeeklyHoursRow,
} from '@studio/database';
import {
  calendarDays,
  intersection,
  localTime,
  type CalendarDay,
  type IntervalSet,
} from '@studio/opening-hours';
import { found, InvalidRequest, StaleVersion } from '../../http/problem.js';
import { pageOf, pageSize } from '../../http/paging.js';
import {
  HoursExceptionResponse,
  minutesOf,
  WeeklyHoursResponse,
  type CreateHoursExceptionRequest,
  type CreateWeeklyHoursRequest,
  type HoursExceptionPage,
  type ListHoursQuery,
  type OpeningHoursQuery,
  type OpeningHoursResponse,
  type OpenDayResponse,
  type UpdateHoursExceptionRequest,
  type UpdateWeeklyHoursRequest,
  type WeeklyHoursPage,
} from './opening-hours.dto.js';
import * as queries from './opening-hours.queries.js';

const longestStretchDays = 62;

@Injectable()
export class OpeningHoursService {
  constructor(private readonly transaction: TenantTransaction) {}

  async createWeekly(ctx: TenantContext, request: CreateWeeklyHoursRequest): Promise<WeeklyHoursResponse> {
    const { studioId } = ctx;
    oneOwner(request);
    if (request.atSiteId != null && request.staffId === undefined) {
      throw new InvalidRequest([{ field: 'atSiteId', message: "goes with a person's hours only" }]);
    }
    const fields = weeklyColumns(request);
    inOrder({ ...fields, validFrom: request.validFrom });
    return this.transaction.runOnce(ctx, async (tx) => {
      const id = await queries.insertHours(tx, 'weekly', { studioId, ...fields });
      await offerFreedTime(tx, { studioId });
      await recordAudit(tx, ctx, { action: 'weekly-hours.create', recordId: id });
      return WeeklyHoursResponse.of(found(await queries.findHours(tx, 'weekly', { studioId, id })));
    });
  }

  async updateWeekly(
    ctx: TenantContext,
    id: string,
    version: number,
    request: UpdateWeeklyHoursRequest,
  ): Promise<WeeklyHoursResponse> {
    const key = { studioId: ctx.studioId, id };
    return this.transaction.run(ctx, async (tx) => {
      const before = found(await queries.findHours(tx, 'weekly', key));
      const fields = weeklyColumns(request);
      inOrder({ ...before, ...fields });
      if (!(await queries.updateHours(tx, 'weekly', { ...key, version }, fields))) throw new StaleVersion();
      await offerFreedTime(tx, key);
      const after = WeeklyHoursResponse.of(found(await queries.findHours(tx, 'weekly', key)));
      await recordAudit(tx, ctx, {
        ...{ action: 'weekly-hours.update', recordId: id, fields: Object.keys(request) },
        ...{ before: WeeklyHoursResponse.of(before), after },
      });
      return after;
    });
  }

  async createException(
    ctx: TenantContext,
    request: CreateHoursExceptionRequest,
  ): Promise<HoursExceptionResponse> {
    const { studioId } = ctx;
    oneOwner(request);
    const fields = exceptionColumns(request);
    exceptionInOrder({ ...request, ...fields });
    return this.transaction.runOnce(ctx, async (tx) => {
      const id = await queries.insertHours(tx, 'exception', { studioId, ...fields });
      await offerFreedTime(tx, { studioId });
      await recordAudit(tx, ctx, { action: 'hours-exceptions.create', recordId: id });
      return HoursExceptionResponse.of(found(await queries.findHours(tx, 'exception', { studioId, id })));
    });
  }

  /** Whose it is stays; `from` and `until` null: whole days. */
  async updateException(
    ctx: TenantContext,
    id: string,
    version: number,
    request: UpdateHoursExceptionRequest,
  ): Promise<HoursExceptionResponse> {
    const key = { studioId: ctx.studioId, id };
    return this.transaction.run(ctx, async (tx) => {
      const before = found(await queries.findHours(tx, 'exception', key));
      const fields = exceptionColumns(request);
      exceptionInOrder({ ...before, ...fields });
      if (!(await queries.updateHours(tx, 'exception', { ...key, version }, fields)))
        throw new StaleVersion();
      await offerFreedTime(tx, key);
      const after = HoursExceptionResponse.of(found(await queries.findHours(tx, 'exception', key)));
      await recordAudit(tx, ctx, {
        ...{ action: 'hours-exceptions.update', recordId: id, fields: Object.keys(request) },
        ...{ before: HoursExceptionResponse.of(before), after },
      });
      return after;
    });
  }

  async delete(ctx: TenantContext, kind: queries.HoursKind, id: string, version: number): Promise<void> {
    const key = { studioId: ctx.studioId, id };
    await this.transaction.run(ctx, async (tx) => {
      found(await queries.findHours(tx, kind, key));
      if (!(await queries.deleteHours(tx, kind, { ...key, version }))) throw new StaleVersion();
      await offerFreedTime(tx, key);
      const name = kind === 'weekly' ? 'weekly-hours' : 'hours-exceptions';
      await recordAudit(tx, ctx, { action: `${name}.delete`, recordId: id });
    });
  }

  async listWeekly(ctx: TenantContext, query: ListHoursQuery): Promise<WeeklyHoursPage> {
    const rows = await this.list(ctx, 'weekly', query);
    return pageOf(
      rows.map((row) => WeeklyHoursResponse.of(row)),
      pageSize(query),
    );
  }

  async listExceptions(ctx: TenantContext, query: ListHoursQuery): Promise<HoursExceptionPage> {
    const rows = await this.list(ctx, 'exception', query);
    return pageOf(
      rows.map((row) => HoursExceptionResponse.of(row)),
      pageSize(query),
    );
  }

  /** What all that is recorded comes to, day by day, by the clock of the place. */
  async open(ctx: TenantContext, query: OpeningHoursQuery): Promise<OpeningHoursResponse> {
    const { studioId } = ctx;
    const { staffId, roomId, firstDay, lastDay } = query;
    if (
      lastDay < firstDay ||
      Date.parse(lastDay) - Date.parse(firstDay) > (longestStretchDays - 1) * 86_400_000
    ) {
      throw new InvalidRequest([
        { field: 'lastDay', message: `must be within ${longestStretchDays} days from firstDay` },
      ]);
    }
    return this.transaction.read(ctx, async (sql) => {
      let siteId = query.siteId ?? null;
      if (roomId !== undefined) ({ siteId } = found(await queries.siteOfRoom(sql, { studioId, roomId })));
      if (staffId !== undefined && !(await queries.isStaff(sql, { studioId, staffId }))) found(null);
      const timeZone = found(await queries.timeZoneAt(sql, { studioId, siteId }));
      const days = calendarDays(timeZone, firstDay, lastDay);
      const hours = await StudioHours.read(sql, { studioId, firstDay, lastDay });
      let open = hours.site(siteId, days);
      if (roomId !== undefined) open = intersection(open, hours.room(roomId, days));
      if (staffId !== undefined) open = intersection(open, hours.person(staffId, siteId, days));
      return { timeZone, days: days.map((day) => openDay(day, open, timeZone)) };
    });
  }

  private list<Kind extends queries.HoursKind>(ctx: TenantContext, kind: Kind, query: ListHoursQuery) {
    const { staffId, roomId, siteId, after } = query;
    const owner = {
      ...(staffId !== undefined && { staffId }),
      ...(roomId !== undefined && { roomId }),
      ...(siteId !== undefined && { siteId }),
    };
    return this.transaction.run(ctx, (tx) =>
      queries.listHours(tx, kind, {
        studioId: ctx.studioId,
        owner,
        limit: pageSize(query) + 1,
        ...(after !== undefined && { after }),
      }),
    );
  }
}

function oneOwner({ staffId, roomId, siteId }: CreateWeeklyHoursRequest | CreateHoursExceptionRequest): void {
  if ([staffId, roomId, siteId].filter((id) => id !== undefined).length > 1) {
    throw new InvalidRequest([{ field: 'staffId', message: 'hours belong to a person, a room or a site' }]);
  }
}

function exceptionColumns(
  request: UpdateHoursExceptionRequest | CreateHoursExceptionRequest,
): Partial<HoursExceptionRow> {
  const { from, until, ...rest } = request;
  return {
    ...rest,
    ...(from !== undefined && { fromMinutes: from === null ? null : minutesOf(from) }),
    ...(until !== undefined && { untilMinutes: until === null ? null : minutesOf(until) }),
  };
}

function exceptionInOrder(row: Partial<HoursExceptionRow>): void {
  const { fromMinutes = null, untilMinutes = null, firstDay = '', lastDay = '' } = row;
  if ((fromMinutes === null) !== (untilMinutes === null)) {
    throw new InvalidRequest([{ field: 'until', message: 'goes with from, and from with until' }]);
  }
  if (fromMinutes !== null && untilMinutes !== null && fromMinutes >= untilMinutes) throw untilBeforeFrom();
  if (lastDay < firstDay) {
    throw new InvalidRequest([{ field: 'lastDay', message: 'must not be before firstDay' }]);
  }
}

function weeklyColumns(request: UpdateWeeklyHoursRequest): Partial<WeeklyHoursRow> {
  const { from, until, breaks, ...rest } = request;
  return {
    ...rest,
    ...(from !== undefined && { fromMinutes: minutesOf(from) }),
    ...(until !== undefined && { untilMinutes: minutesOf(until) }),
    ...(breaks && {
      breaks: breaks.map((pause) => ({
        fromMinutes: minutesOf(pause.from),
        untilMinutes: minutesOf(pause.until),
      })),
    }),
  };
}

const untilBeforeFrom = (): InvalidRequest =>
  new InvalidRequest([{ field: 'until', message: 'must be later than from; 24:00 is the end of the day' }]);

function inOrder(row: Partial<WeeklyHoursRow> & Pick<WeeklyHoursRow, 'validFrom'>): void {
  const { fromMinutes = 0, untilMinutes = 0, validFrom, validUntil = null, breaks = [] } = row;
  if (fromMinutes >= untilMinutes) throw untilBeforeFrom();
  if (validUntil !== null && validUntil < validFrom) {
    throw new InvalidRequest([{ field: 'validUntil', message: 'must not be before validFrom' }]);
  }
  for (const pause of breaks) {
    if (
      pause.fromMinutes < fromMinutes ||
      pause.untilMinutes > untilMinutes ||
      pause.fromMinutes >= pause.untilMinutes
    ) {
      throw new InvalidRequest([
        { field: 'breaks', message: 'must lie within the hours, from before until' },
      ]);
    }
  }
}

function openDay(day: CalendarDay, open: IntervalSet, timeZone: string): OpenDayResponse {
  return {
    day: day.day,
    hoursInDay: (day.end - day.start) / 3_600_000,
    open: intersection(open, day.start < day.end ? [day] : []).map(({ start, end }) => ({
      startsAt: new Date(start).toISOString(),
      endsAt: new Date(end).toISOString(),
      localStart: localTime(start, timeZone),
      localEnd: localTime(end, timeZone),
    })),
  };
}

import { Injectable } from '@nestjs/common';
import { TenantTransaction, type TenantContext } from '@studio/database';
import { calendarDays, localTime } from '@studio/opening-hours';
import { found } from '../../http/problem.js';
import { noticesFor } from '../screenings/index.js';
import { openTasksBefore } from '../tasks/index.js';
import type {
  DaySheetQuery,
  DaySheetResponse,
  SheetGroupResponse,
  SheetVisitResponse,
  VisitNotice,
  VisitTask,
} from './day-sheet.dto.js';
import * as queries from './day-sheet.queries.js';

const mostTasks = 100;

@Injectable()
export class DaySheetService {
  constructor(private readonly transaction: TenantTransaction) {}

  /** All a studio needs to get through a day, in one call. */
  async day(ctx: TenantContext, query: DaySheetQuery): Promise<DaySheetResponse> {
    const { studioId } = ctx;
    const { day } = query;
    const siteId = query.siteId ?? null;
    return this.transaction.read(ctx, async (sql) => {
      const { studio, timeZone } = found(await queries.findPlace(sql, { studioId, siteId }));
      const [own] = calendarDays(timeZone, day, day);
      const { start = 0, end = 0 } = own ?? {};
      const range = {
        ...{ studioId, siteId },
        from: new Date(start).toISOString(),
        to: new Date(end).toISOString(),
      };
      const [visits, curing, rooms, fitters, openTasks] = await Promise.all([
        queries.listVisits(sql, range),
        queries.listCuring(sql, range),
        queries.listRooms(sql, { studioId, siteId }),
        queries.listFitters(sql, studioId),
        openTasksBefore(sql, ctx, { dueBefore: range.to, limit: mostTasks }),
      ]);
      const clientIds = [...new Set(visits.map(({ clientId }) => clientId))];
      const notices = await noticesFor(sql, { studioId, clientIds });
      return {
        ...{ day, studio, timeZone, openTasks },
        visits: visits.map((visit) =>
          toVisit(visit, notices.get(visit.clientId) ?? 'not_screened', timeZone),
        ),
        rooms: grouped(rooms, visits, 'roomId'),
        fitters: grouped(fitters, visits, 'fitterId'),
        benches: curing.map(({ benchId, benchName, readyAt, ...lying }) => ({
          ...lying,
          bench: { id: benchId, name: benchName },
          localReady: localTime(readyAt.getTime(), timeZone),
        })),
      };
    });
  }
}

function toVisit(visit: queries.SheetVisit, permission: VisitNotice, timeZone: string): SheetVisitResponse {
  return {
    appointmentId: visit.appointmentId,
    startsAt: visit.startsAt.toISOString(),
    endsAt: visit.endsAt.toISOString(),
    localStart: localTime(visit.startsAt.getTime(), timeZone),
    localEnd: localTime(visit.endsAt.getTime(), timeZone),
    state: visit.state,
    client: { id: visit.clientId, name: visit.clientName, phone: visit.phone },
    service: { id: visit.serviceId, name: visit.serviceName },
    fitter: { id: visit.fitterId, name: visit.fitterName },
    room: { id: visit.roomId, name: visit.roomName },
    intake: permission === 'not_screened' ? 'missing' : 'taken',
    permission,
    tasks: tasksOf(visit, permission),
  };
}

function tasksOf(
  { state, consented, referralOverdue }: queries.SheetVisit,
  permission: VisitNotice,
): VisitTask[] {
  if (state === 'completed' || state === 'no_show') return [];
  const always: VisitTask[] = [
    ...(consented ? [] : ['take_consent' as const]),
    ...(referralOverdue ? ['ask_after_referral' as const] : []),
  ];
  switch (permission) {
    case 'not_screened':
      return [...always, 'take_intake'];
    case 'needs_a_call':
      return [...always, 'call_client'];
    case 'not_before_clearance':
      return [...always, 'await_clearance'];
    case 'may_be_booked':
      return always;
  }
}

function grouped(
  all: readonly { id: string; name: string }[],
  visits: readonly queries.SheetVisit[],
  by: 'roomId' | 'fitterId',
): SheetGroupResponse[] {
  return all.map(({ id, name }) => ({
    ...{ id, name },
    appointmentIds: visits.filter((visit) => visit[by] === id).map(({ appointmentId }) => appointmentId),
  }));
}

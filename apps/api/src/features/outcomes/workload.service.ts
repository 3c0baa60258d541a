import { Injectable } from '@nestjs/common';
import { recordAudit, studioClock, TenantTransaction, type TenantContext } from '@studio/database';
import { calendarDays } from '@studio/opening-hours';
import { daysAfter } from '../../http/local-days.js';
import { InvalidRequest } from '../../http/problem.js';
import { StudioHours } from '@studio/availability';
import { OpenTime } from './open-time.js';
import { workloadCsv, workloadRows } from './workload-table.js';
import { workloadPdf } from './workload-pdf.js';
import type { VisitCountsResponse, WorkloadQuery, WorkloadResponse } from './workload.dto.js';
import * as queries from './workload.queries.js';

const mostDays = 366;

const counted = ['planned', 'attended', 'noShows', 'cancelled', 'cancelledLate', 'booked'] as const;

@Injectable()
export class WorkloadService {
  constructor(private readonly transaction: TenantTransaction) {}

  async workload(ctx: TenantContext, query: WorkloadQuery): Promise<WorkloadResponse> {
    const { studioId } = ctx;
    const { fitterId = null, siteId = null, from: firstDay, until: lastDay } = query;
    checkDays(query);
    return this.transaction.readFromReplica(ctx, async (sql) => {
      const { timeZone } = await studioClock(sql, studioId);
      const days = calendarDays(timeZone, firstDay, lastDay);
      const period = { start: days[0]?.start ?? 0, end: days.at(-1)?.end ?? 0 };
      const [from, to] = [new Date(period.start).toISOString(), new Date(period.end).toISOString()];
      // The day before and after as well: a site may have them when the studio has not.
      const around = { firstDay: daysAfter(firstDay, -1), lastDay: daysAfter(lastDay, 1) };
      const of = { studioId, from, to, timeZone, fitterId, siteId };
      const [groups, fitters, rooms, revenue, shoeWork, referrals, hours] = await Promise.all([
        queries.visitGroups(sql, of),
        queries.listFitters(sql, of),
        queries.listRooms(sql, of),
        queries.revenueLines(sql, of),
        queries.countShoeWork(sql, of),
        fitterId === null && siteId === null ? queries.countReferrals(sql, of) : null,
        StudioHours.read(sql, { studioId, ...around }),
      ]);
      const open = new OpenTime(hours, { ...period, ...around }, rooms);
      return {
        of: inWords(query),
        visits: countsOf(groups),
        fitters: fitters.flatMap(({ id, name, active }) => {
          const own = groups.filter((group) => group.fitterId === id);
          if (!active && own.length === 0) return [];
          const openHours = open.ofFitter(id);
          return [{ fitterId: id, name, ...countsOf(own), ...utilised(own, openHours) }];
        }),
        rooms: rooms.map((room) => {
          const own = groups.filter((group) => group.roomId === room.id);
          const { planned, cancelled, cancelledLate } = countsOf(own);
          const visits = planned - cancelled - cancelledLate;
          const { id: roomId, name } = room;
          return { roomId, name, siteId: room.siteId, visits, ...utilised(own, open.ofRoom(room)) };
        }),
        revenue,
        shoeWork,
        referrals,
      };
    });
  }

  async csv(ctx: TenantContext, query: WorkloadQuery): Promise<string> {
    const found = await this.workload(ctx, query);
    await this.recordExport(ctx, 'csv');
    return workloadCsv(workloadRows(found));
  }

  async pdf(ctx: TenantContext, query: WorkloadQuery): Promise<Buffer> {
    const found = await this.workload(ctx, query);
    const { name, now } = await this.transaction.read(ctx, (sql) => studioClock(sql, ctx.studioId));
    await this.recordExport(ctx, 'pdf');
    return workloadPdf(found, { studio: name, madeAt: now });
  }

  /** What leaves the house is written down. */
  private async recordExport(ctx: TenantContext, form: string): Promise<void> {
    await this.transaction.run(ctx, (tx) =>
      recordAudit(tx, ctx, { action: 'outcomes.export-workload', recordId: ctx.studioId, fields: [form] }),
    );
  }
}

function countsOf(groups: readonly queries.VisitGroup[]): VisitCountsResponse {
  const sums = counted.map((count) => [count, groups.reduce((sum, group) => sum + group[count], 0)]);
  return Object.fromEntries(sums) as VisitCountsResponse;
}

function utilised(groups: readonly queries.VisitGroup[], openHours: number | null) {
  const bookedHours = groups.reduce((sum, { bookedMinutes }) => sum + bookedMinutes, 0) / 60;
  const utilisation = openHours === null || openHours === 0 ? null : bookedHours / openHours;
  return { bookedHours, openHours, utilisation };
}

function inWords({ from, until, fitterId, siteId }: WorkloadQuery): string {
  const of = [
    ...(fitterId === undefined ? [] : ['of one fitter']),
    ...(siteId === undefined ? [] : ['at one site']),
  ];
  return [`from ${from} to ${until}`, ...of].join(', ');
}

function checkDays({ from, until }: WorkloadQuery): void {
  if (until < from || daysAfter(from, mostDays - 1) < until) {
    throw new InvalidRequest([{ field: 'until', message: `must be 0 to ${mostDays - 1} days after from` }]);
  }
}

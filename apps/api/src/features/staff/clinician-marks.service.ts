import { Injectable } from '@nestjs/common';
import { recordAudit, studioClock, TenantTransaction, type TenantContext, type User } from '@studio/database';
import type { EntityManager } from 'typeorm';
import { localDay } from '../../http/local-days.js';
import { found, InvalidRequest } from '../../http/problem.js';
import type { ClinicianMarkResponse, GiveClinicianMarkRequest } from './clinician-marks.dto.js';
import { endMark, insertMark, listMarks } from './clinician-marks.queries.js';
import { NoClinicianMark, NotAFitterYet } from './staff.errors.js';
import { findStaffForUpdate } from './staff.queries.js';

@Injectable()
export class ClinicianMarksService {
  constructor(private readonly transaction: TenantTransaction) {}

  /** A mark that stands is ended by the new one: so a registration is looked up again. */
  async give(
    ctx: TenantContext,
    userId: string,
    { registration, checkedOn }: GiveClinicianMarkRequest,
  ): Promise<ClinicianMarkResponse> {
    const { studioId } = ctx;
    const givenBy = ctx.userId as string;
    return this.transaction.runOnce(ctx, async (tx) => {
      const { roles } = await person(tx, ctx, userId);
      if (!roles.includes('fitter')) throw new NotAFitterYet();
      const { now, timeZone } = await studioClock(tx, studioId);
      if (checkedOn > localDay(now, timeZone)) {
        throw new InvalidRequest([{ field: 'checkedOn', message: 'must not be after today' }]);
      }
      await endMark(tx, { studioId, userId, endedBy: givenBy });
      const id = await insertMark(tx, { studioId, userId, registration, checkedOn, givenBy });
      await recordAudit(tx, ctx, {
        ...{ action: 'clinician-marks.give', recordId: userId, fields: ['registration', 'checkedOn'] },
        after: { registration, checkedOn },
      });
      return (await listMarks(tx, { studioId, userId, id }))[0] as ClinicianMarkResponse;
    });
  }

  async end(ctx: TenantContext, userId: string): Promise<void> {
    const { studioId } = ctx;
    await this.transaction.run(ctx, async (tx) => {
      await person(tx, ctx, userId);
      if (!(await endMark(tx, { studioId, userId, endedBy: ctx.userId as string })))
        throw new NoClinicianMark();
      await recordAudit(tx, ctx, { action: 'clinician-marks.end', recordId: userId });
    });
  }

  async list(ctx: TenantContext, userId: string): Promise<ClinicianMarkResponse[]> {
    const { studioId } = ctx;
    return this.transaction.run(ctx, async (tx) => {
      await person(tx, ctx, userId);
      return listMarks(tx, { studioId, userId });
    });
  }
}

/** Locked: of two marks given at once the second ends the first. */
const person = async (tx: EntityManager, { studioId }: TenantContext, id: string): Promise<User> =>
  found(await findStaffForUpdate(tx, { studioId, id }));

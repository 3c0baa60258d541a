import { Injectable } from '@nestjs/common';
import { readClock, recordAudit, TenantTransaction, violates, type TenantContext } from '@studio/database';
import { hashPassword, requireGoodPassword } from '../../http/passwords.js';
import { found, StaleVersion } from '../../http/problem.js';
import { orderPasswordLink, revokeSignIns } from '../sign-ins/index.js';
import {
  StaffResponse,
  type CreateStaffRequest,
  type StudioResponse,
  type UpdateStaffRequest,
} from './staff.dto.js';
import { HasPassword, LastOwner, StaffEmailTaken } from './staff.errors.js';
import * as queries from './staff.queries.js';

@Injectable()
export class StaffService {
  constructor(private readonly transaction: TenantTransaction) {}

  async create(ctx: TenantContext, request: CreateStaffRequest): Promise<StaffResponse> {
    const { email, displayName, roles, skills = [], password } = request;
    const { studioId } = ctx;
    if (password !== undefined) requireGoodPassword(password, [email, displayName]);
    const passwordHash = password === undefined ? null : await hashPassword(password);
    try {
      return await this.transaction.runOnce(ctx, async (tx) => {
        const row = { studioId, email, displayName, roles, skills, passwordHash };
        const user = await queries.insertStaff(tx, row);
        if (passwordHash === null) await orderPasswordLink(tx, { studioId, userId: user.id }, 'invitation');
        await recordAudit(tx, ctx, {
          action: 'staff.create',
          recordId: user.id,
          fields: ['email', 'displayName', 'roles', 'skills'],
        });
        return StaffResponse.of(user);
      });
    } catch (error) {
      if (violates(error, 'users_email_once')) throw new StaffEmailTaken();
      throw error;
    }
  }

  async invite(ctx: TenantContext, id: string): Promise<void> {
    const { studioId } = ctx;
    await this.transaction.run(ctx, async (tx) => {
      const user = found(await queries.findStaff(tx, { studioId, id }));
      if (user.passwordHash !== null) throw new HasPassword();
      await orderPasswordLink(tx, { studioId, userId: id }, 'invitation');
      await recordAudit(tx, ctx, { action: 'staff.invite', recordId: id });
    });
  }

  async update(
    ctx: TenantContext,
    id: string,
    version: number,
    request: UpdateStaffRequest,
  ): Promise<StaffResponse> {
    const { studioId } = ctx;
    const { active, ...fields } = request;
    return this.transaction.run(ctx, async (tx) => {
      const before = found(await queries.findStaff(tx, { studioId, id }));
      const disabledAt = active === false ? (before.disabledAt ?? (await readClock(tx))) : null;
      const change = { ...fields, ...(active !== undefined && { disabledAt }) };
      if (!(await queries.updateStaff(tx, { studioId, id, version }, change))) throw new StaleVersion();
      if (!(await queries.hasActiveOwner(tx, studioId))) throw new LastOwner();
      if (active === false) await revokeSignIns(tx, { studioId, userId: id });
      const after = StaffResponse.of(found(await queries.findStaff(tx, { studioId, id })));
      await recordAudit(tx, ctx, {
        ...{ action: 'staff.update', recordId: id, fields: Object.keys(request) },
        ...{ before: StaffResponse.of(before), after },
      });
      return after;
    });
  }

  async list(ctx: TenantContext): Promise<StaffResponse[]> {
    const users = await this.transaction.run(ctx, (tx) => queries.listStaff(tx, ctx.studioId));
    return users.map((user) => StaffResponse.of(user));
  }

  async studio(ctx: TenantContext): Promise<StudioResponse> {
    const { id, name, timeZone } = await this.transaction.run(ctx, (tx) =>
      queries.getStudio(tx, ctx.studioId),
    );
    return { id, name, timeZone };
  }
}

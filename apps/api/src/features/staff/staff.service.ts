import { Injectable } from '@nestjs/common';
import { hash } from '@node-rs/argon2';
import { recordAudit, TenantTransaction, violates, type TenantContext } from '@studio/database';
import { found, StaleVersion } from '../../http/problem.js';
import {
  StaffResponse,
  type CreateStaffRequest,
  type StudioResponse,
  type UpdateStaffRequest,
} from './staff.dto.js';
import { StaffEmailTaken } from './staff.errors.js';
import * as queries from './staff.queries.js';

@Injectable()
export class StaffService {
  constructor(private readonly transaction: TenantTransaction) {}

  async create(ctx: TenantContext, request: CreateStaffRequest): Promise<StaffResponse> {
    const { email, displayName, roles, skills = [] } = request;
    const passwordHash = await hash(request.password);
    try {
      return await this.transaction.runOnce(ctx, async (tx) => {
        const user = await queries.insertStaff(tx, {
          studioId: ctx.studioId,
          email,
          displayName,
          roles,
          skills,
          passwordHash,
        });
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

  async update(
    ctx: TenantContext,
    id: string,
    version: number,
    request: UpdateStaffRequest,
  ): Promise<StaffResponse> {
    const { studioId } = ctx;
    return this.transaction.run(ctx, async (tx) => {
      found(await queries.findStaff(tx, { studioId, id }));
      if (!(await queries.updateStaff(tx, { studioId, id, version }, request))) throw new StaleVersion();
      await recordAudit(tx, ctx, { action: 'staff.update', recordId: id, fields: Object.keys(request) });
      return StaffResponse.of(found(await queries.findStaff(tx, { studioId, id })));
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

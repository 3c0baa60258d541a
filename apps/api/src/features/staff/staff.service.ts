import { Injectable } from '@nestjs/common';
import { hash } from '@node-rs/argon2';
import { recordAudit, TenantTransaction, violates, type TenantContext } from '@studio/database';
import { StaffResponse, type CreateStaffRequest, type StudioResponse } from './staff.dto.js';
import { StaffEmailTaken } from './staff.errors.js';
import * as queries from './staff.queries.js';

@Injectable()
export class StaffService {
  constructor(private readonly transaction: TenantTransaction) {}

  async create(ctx: TenantContext, request: CreateStaffRequest): Promise<StaffResponse> {
    const { email, displayName, roles } = request;
    const passwordHash = await hash(request.password);
    try {
      return await this.transaction.run(ctx, async (tx) => {
        const user = await queries.insertStaff(tx, {
          studioId: ctx.studioId,
          email,
          displayName,
          roles,
          passwordHash,
        });
        await recordAudit(tx, ctx, {
          action: 'staff.create',
          recordId: user.id,
          fields: ['email', 'displayName', 'roles'],
        });
        return StaffResponse.of(user);
      });
    } catch (error) {
      if (violates(error, 'users_email_once')) throw new StaffEmailTaken();
      throw error;
    }
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

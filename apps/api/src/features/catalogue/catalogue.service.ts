import { Injectable } from '@nestjs/common';
import {
  recordAudit,
  TenantTransaction,
  violates,
  type Room,
  type Service,
  type TenantContext,
} from '@studio/database';
import type {
  CreateRoomRequest,
  CreateServiceRequest,
  RoomResponse,
  ServiceResponse,
} from './catalogue.dto.js';
import { NameTaken } from './catalogue.errors.js';
import * as queries from './catalogue.queries.js';

@Injectable()
export class CatalogueService {
  constructor(private readonly transaction: TenantTransaction) {}

  async createService(ctx: TenantContext, request: CreateServiceRequest): Promise<ServiceResponse> {
    try {
      return await this.transaction.run(ctx, async (tx) => {
        const row = await queries.insertService(tx, { studioId: ctx.studioId, ...request });
        await recordAudit(tx, ctx, { action: 'services.create', recordId: row.id });
        return toService(row);
      });
    } catch (error) {
      throw violates(error, 'services_name_once') ? new NameTaken() : error;
    }
  }

  async listServices(ctx: TenantContext): Promise<ServiceResponse[]> {
    const rows = await this.transaction.run(ctx, (tx) => queries.listServices(tx, ctx.studioId));
    return rows.map(toService);
  }

  async createRoom(ctx: TenantContext, request: CreateRoomRequest): Promise<RoomResponse> {
    try {
      return await this.transaction.run(ctx, async (tx) => {
        const row = await queries.insertRoom(tx, { studioId: ctx.studioId, ...request });
        await recordAudit(tx, ctx, { action: 'rooms.create', recordId: row.id });
        return toRoom(row);
      });
    } catch (error) {
      throw violates(error, 'rooms_name_once') ? new NameTaken() : error;
    }
  }

  async listRooms(ctx: TenantContext): Promise<RoomResponse[]> {
    const rows = await this.transaction.run(ctx, (tx) => queries.listRooms(tx, ctx.studioId));
    return rows.map(toRoom);
  }
}

const toService = ({ id, name, durationMinutes }: Service): ServiceResponse => ({
  id,
  name,
  durationMinutes,
});
const toRoom = ({ id, name }: Room): RoomResponse => ({ id, name });

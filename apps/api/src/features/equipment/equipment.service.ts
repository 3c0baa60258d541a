import { Injectable } from '@nestjs/common';
import {
  recordAudit,
  TenantTransaction,
  violates,
  type Bike,
  type Shoe,
  type TenantContext,
} from '@studio/database';
import { requireClient, requireKnownClient } from '../clients/index.js';
import type { BikeResponse, CreateBikeRequest, CreateShoeRequest, ShoeResponse } from './equipment.dto.js';
import { SlotsOutOfOrder } from './equipment.errors.js';
import * as queries from './equipment.queries.js';

@Injectable()
export class EquipmentService {
  constructor(private readonly transaction: TenantTransaction) {}

  async createBike(ctx: TenantContext, clientId: string, request: CreateBikeRequest): Promise<BikeResponse> {
    const { studioId } = ctx;
    return this.transaction.run(ctx, async (tx) => {
      await requireClient(tx, studioId, clientId);
      const bike = await queries.insertBike(tx, { studioId, clientId, ...request });
      await recordAudit(tx, ctx, { action: 'bikes.create', recordId: bike.id });
      return toBike(bike);
    });
  }

  async listBikes(ctx: TenantContext, clientId: string): Promise<BikeResponse[]> {
    const { studioId } = ctx;
    return this.transaction.run(ctx, async (tx) => {
      await requireKnownClient(tx, studioId, clientId);
      return (await queries.listBikes(tx, { studioId, clientId })).map(toBike);
    });
  }

  async createShoe(ctx: TenantContext, clientId: string, request: CreateShoeRequest): Promise<ShoeResponse> {
    const { studioId } = ctx;
    try {
      return await this.transaction.run(ctx, async (tx) => {
        await requireClient(tx, studioId, clientId);
        const shoe = await queries.insertShoe(tx, { studioId, clientId, ...request });
        await recordAudit(tx, ctx, { action: 'shoes.create', recordId: shoe.id });
        return toShoe(shoe);
      });
    } catch (error) {
      throw violates(error, 'shoes_slots_in_order') ? new SlotsOutOfOrder() : error;
    }
  }

  async listShoes(ctx: TenantContext, clientId: string): Promise<ShoeResponse[]> {
    const { studioId } = ctx;
    return this.transaction.run(ctx, async (tx) => {
      await requireKnownClient(tx, studioId, clientId);
      return (await queries.listShoes(tx, { studioId, clientId })).map(toShoe);
    });
  }
}

const toBike = ({ id, name, crankLengthMm, seatTubeAngleDeg }: Bike): BikeResponse => ({
  id,
  name,
  crankLengthMm,
  seatTubeAngleDeg,
});

const toShoe = (shoe: Shoe): ShoeResponse => ({
  id: shoe.id,
  name: shoe.name,
  outerLengthMm: shoe.outerLengthMm,
  holePattern: shoe.holePattern,
  slotFrontFromHeelMm: shoe.slotFrontFromHeelMm,
  slotRearFromHeelMm: shoe.slotRearFromHeelMm,
  archChannel: shoe.archChannel,
});

import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Allow } from '../../http/access.js';
import { Describe } from '../../http/documentation.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import { BikeResponse, CreateBikeRequest, CreateShoeRequest, ShoeResponse } from './equipment.dto.js';
import { EquipmentService } from './equipment.service.js';

@ApiTags('Bikes and shoes')
@Controller('v1/clients/:clientId')
@Allow('owner', 'fitter')
export class EquipmentController {
  constructor(private readonly equipment: EquipmentService) {}

  @Post('bikes')
  @Describe({
    id: 'createBike',
    summary: "Record one of the client's bikes",
    returns: BikeResponse,
    status: 201,
    problems: [400, 404],
  })
  createBike(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
    @Body() request: CreateBikeRequest,
  ): Promise<BikeResponse> {
    return this.equipment.createBike(ctx, clientId, request);
  }

  @Get('bikes')
  @Describe({ id: 'listBikes', summary: "The client's bikes", returns: [BikeResponse], problems: [404] })
  listBikes(@Ctx() ctx: TenantContext, @Param('clientId', idPipe) clientId: string): Promise<BikeResponse[]> {
    return this.equipment.listBikes(ctx, clientId);
  }

  @Post('shoes')
  @Describe({
    id: 'createShoe',
    summary: "Record a pair of the client's shoes",
    returns: ShoeResponse,
    status: 201,
    problems: [400, 404, 422],
  })
  createShoe(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
    @Body() request: CreateShoeRequest,
  ): Promise<ShoeResponse> {
    return this.equipment.createShoe(ctx, clientId, request);
  }

  @Get('shoes')
  @Describe({ id: 'listShoes', summary: "The client's shoes", returns: [ShoeResponse], problems: [404] })
  listShoes(@Ctx() ctx: TenantContext, @Param('clientId', idPipe) clientId: string): Promise<ShoeResponse[]> {
    return this.equipment.listShoes(ctx, clientId);
  }
}

import { Body, Controller, Get, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Allow, AllowStaff } from '../../http/access.js';
import { Describe } from '../../http/documentation.js';
import { Ctx } from '../../http/request-context.js';
import { CreateRoomRequest, CreateServiceRequest, RoomResponse, ServiceResponse } from './catalogue.dto.js';
import { CatalogueService } from './catalogue.service.js';

@ApiTags('Catalogue')
@Controller('v1')
export class CatalogueController {
  constructor(private readonly catalogue: CatalogueService) {}

  @Post('services')
  @Allow('owner')
  @Describe({
    id: 'createService',
    summary: 'Offer a service',
    returns: ServiceResponse,
    status: 201,
    problems: [400, 409],
  })
  createService(@Ctx() ctx: TenantContext, @Body() request: CreateServiceRequest): Promise<ServiceResponse> {
    return this.catalogue.createService(ctx, request);
  }

  @Get('services')
  @AllowStaff()
  @Describe({ id: 'listServices', summary: 'What the studio offers', returns: [ServiceResponse] })
  listServices(@Ctx() ctx: TenantContext): Promise<ServiceResponse[]> {
    return this.catalogue.listServices(ctx);
  }

  @Post('rooms')
  @Allow('owner')
  @Describe({
    id: 'createRoom',
    summary: 'Add a room',
    returns: RoomResponse,
    status: 201,
    problems: [400, 409],
  })
  createRoom(@Ctx() ctx: TenantContext, @Body() request: CreateRoomRequest): Promise<RoomResponse> {
    return this.catalogue.createRoom(ctx, request);
  }

  @Get('rooms')
  @AllowStaff()
  @Describe({ id: 'listRooms', summary: 'Where the studio works', returns: [RoomResponse] })
  listRooms(@Ctx() ctx: TenantContext): Promise<RoomResponse[]> {
    return this.catalogue.listRooms(ctx);
  }
}

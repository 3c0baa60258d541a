import { Body, Controller, Get, Param, Patch, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { PageQuery } from '../../http/paging.js';
import { IfMatch } from '../../http/preconditions.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import {
  BenchPage,
  BenchResponse,
  CreateBenchRequest,
  CreateRoomRequest,
  CreateSiteRequest,
  RoomPage,
  RoomResponse,
  SitePage,
  SiteResponse,
  UpdateBenchRequest,
  UpdateRoomRequest,
  UpdateSiteRequest,
} from './premises.dto.js';
import { PremisesService } from './premises.service.js';

@ApiTags('Premises')
@Controller('v1')
export class PremisesController {
  constructor(private readonly premises: PremisesService) {}

  @Post('sites')
  @Describe({
    id: 'createSite',
    summary: 'Add a place the studio works at',
    returns: SiteResponse,
    status: 201,
    problems: [400, 409],
    versioned: true,
    once: true,
  })
  createSite(@Ctx() ctx: TenantContext, @Body() request: CreateSiteRequest): Promise<SiteResponse> {
    return this.premises.create(ctx, 'site', request);
  }

  @Get('sites')
  @Describe({
    id: 'listSites',
    summary: 'The places the studio works at',
    returns: SitePage,
    problems: [400],
  })
  listSites(@Ctx() ctx: TenantContext, @Query() query: PageQuery): Promise<SitePage> {
    return this.premises.list(ctx, 'site', query);
  }

  @Patch('sites/:siteId')
  @Describe({
    id: 'updateSite',
    summary: 'Change a place',
    returns: SiteResponse,
    problems: [400, 404, 409],
    ifMatch: true,
  })
  updateSite(
    @Ctx() ctx: TenantContext,
    @Param('siteId', idPipe) id: string,
    @IfMatch() version: number,
    @Body() request: UpdateSiteRequest,
  ): Promise<SiteResponse> {
    return this.premises.update(ctx, 'site', { id, version }, request);
  }

  @Post('rooms')
  @Describe({
    id: 'createRoom',
    summary: 'Add a room',
    returns: RoomResponse,
    status: 201,
    problems: [400, 409],
    versioned: true,
    once: true,
  })
  createRoom(@Ctx() ctx: TenantContext, @Body() request: CreateRoomRequest): Promise<RoomResponse> {
    return this.premises.create(ctx, 'room', request);
  }

  @Get('rooms')
  @Describe({ id: 'listRooms', summary: 'Where the studio works', returns: RoomPage, problems: [400] })
  listRooms(@Ctx() ctx: TenantContext, @Query() query: PageQuery): Promise<RoomPage> {
    return this.premises.list(ctx, 'room', query);
  }

  @Patch('rooms/:roomId')
  @Describe({
    id: 'updateRoom',
    summary: 'Change a room',
    returns: RoomResponse,
    problems: [400, 404, 409],
    ifMatch: true,
  })
  updateRoom(
    @Ctx() ctx: TenantContext,
    @Param('roomId', idPipe) id: string,
    @IfMatch() version: number,
    @Body() request: UpdateRoomRequest,
  ): Promise<RoomResponse> {
    return this.premises.update(ctx, 'room', { id, version }, request);
  }

  @Post('benches')
  @Describe({
    id: 'createBench',
    summary: 'Add a bench',
    returns: BenchResponse,
    status: 201,
    problems: [400, 409],
    versioned: true,
    once: true,
  })
  createBench(@Ctx() ctx: TenantContext, @Body() request: CreateBenchRequest): Promise<BenchResponse> {
    return this.premises.create(ctx, 'bench', request);
  }

  @Get('benches')
  @Describe({
    id: 'listBenches',
    summary: 'Where shoe work lies while it cures',
    returns: BenchPage,
    problems: [400],
  })
  listBenches(@Ctx() ctx: TenantContext, @Query() query: PageQuery): Promise<BenchPage> {
    return this.premises.list(ctx, 'bench', query);
  }

  @Patch('benches/:benchId')
  @Describe({
    id: 'updateBench',
    summary: 'Change a bench',
    returns: BenchResponse,
    problems: [400, 404, 409],
    ifMatch: true,
  })
  updateBench(
    @Ctx() ctx: TenantContext,
    @Param('benchId', idPipe) id: string,
    @IfMatch() version: number,
    @Body() request: UpdateBenchRequest,
  ): Promise<BenchResponse> {
    return this.premises.update(ctx, 'bench', { id, version }, request);
  }
}

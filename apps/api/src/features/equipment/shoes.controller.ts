import { Body, Controller, Delete, Get, Param, Patch, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { IfMatch } from '../../http/preconditions.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import {
  CreateShoeRequest,
  HardwarePage,
  HardwareQuery,
  MountHardwareRequest,
  ShoeResponse,
  UpdateShoeRequest,
} from './shoes.dto.js';
import { ShoesService } from './shoes.service.js';

@ApiTags('Bikes and shoes')
@Controller('v1/clients/:clientId/shoes')
export class ShoesController {
  constructor(private readonly shoes: ShoesService) {}

  @Post()
  @Describe({
    id: 'createShoe',
    summary: "Record a pair of the client's shoes",
    returns: ShoeResponse,
    status: 201,
    problems: [400, 404, 422],
    once: true,
  })
  create(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
    @Body() request: CreateShoeRequest,
  ): Promise<ShoeResponse> {
    return this.shoes.create(ctx, clientId, request);
  }

  @Get()
  @Describe({ id: 'listShoes', summary: "The client's shoes", returns: [ShoeResponse], problems: [404] })
  list(@Ctx() ctx: TenantContext, @Param('clientId', idPipe) clientId: string): Promise<ShoeResponse[]> {
    return this.shoes.list(ctx, clientId);
  }

  @Get(':shoeId')
  @Describe({
    id: 'getShoe',
    summary: 'A pair of shoes with what is mounted',
    returns: ShoeResponse,
    problems: [404],
    versioned: true,
  })
  get(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
    @Param('shoeId', idPipe) id: string,
  ): Promise<ShoeResponse> {
    return this.shoes.get(ctx, { clientId, id });
  }

  @Patch(':shoeId')
  @Describe({
    id: 'updateShoe',
    summary: 'Change what is known of a pair, or put it away',
    returns: ShoeResponse,
    problems: [400, 404, 422],
    ifMatch: true,
  })
  update(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
    @Param('shoeId', idPipe) id: string,
    @IfMatch() version: number,
    @Body() request: UpdateShoeRequest,
  ): Promise<ShoeResponse> {
    return this.shoes.update(ctx, { clientId, id }, version, request);
  }

  @Get(':shoeId/hardware')
  @Describe({
    id: 'listShoeHardware',
    summary: 'Every part on a pair from when to when, and who mounted it',
    returns: HardwarePage,
    problems: [400, 404],
  })
  hardware(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
    @Param('shoeId', idPipe) id: string,
    @Query() query: HardwareQuery,
  ): Promise<HardwarePage> {
    return this.shoes.history(ctx, { clientId, id }, query);
  }

  @Post(':shoeId/hardware')
  @Describe({
    id: 'mountShoeHardware',
    summary: 'Mount a part on one shoe of the pair',
    returns: ShoeResponse,
    status: 201,
    problems: [400, 404, 409],
    ifMatch: true,
  })
  mount(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
    @Param('shoeId', idPipe) id: string,
    @IfMatch() version: number,
    @Body() request: MountHardwareRequest,
  ): Promise<ShoeResponse> {
    return this.shoes.mount(ctx, { clientId, id }, version, request);
  }

  @Delete(':shoeId/hardware/:hardwareId')
  @Describe({
    id: 'unmountShoeHardware',
    summary: 'Take a part off; it stays in the history',
    returns: ShoeResponse,
    problems: [404, 422],
    ifMatch: true,
  })
  unmount(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
    @Param('shoeId', idPipe) id: string,
    @Param('hardwareId', idPipe) hardwareId: string,
    @IfMatch() version: number,
  ): Promise<ShoeResponse> {
    return this.shoes.unmount(ctx, { clientId, id }, version, hardwareId);
  }
}

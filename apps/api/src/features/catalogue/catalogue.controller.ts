import { Body, Controller, Get, Param, Patch, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { PageQuery } from '../../http/paging.js';
import { IfMatch } from '../../http/preconditions.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import { CreateServiceRequest, ServicePage, ServiceResponse, UpdateServiceRequest } from './catalogue.dto.js';
import { CatalogueService } from './catalogue.service.js';

@ApiTags('Catalogue')
@Controller('v1/services')
export class CatalogueController {
  constructor(private readonly catalogue: CatalogueService) {}

  @Post()
  @Describe({
    id: 'createService',
    summary: 'Offer a service',
    returns: ServiceResponse,
    status: 201,
    problems: [400, 409],
    versioned: true,
    once: true,
  })
  create(@Ctx() ctx: TenantContext, @Body() request: CreateServiceRequest): Promise<ServiceResponse> {
    return this.catalogue.create(ctx, request);
  }

  @Get()
  @Describe({
    id: 'listServices',
    summary: 'What the studio offers; the retired ones too',
    returns: ServicePage,
    problems: [400],
  })
  list(@Ctx() ctx: TenantContext, @Query() query: PageQuery): Promise<ServicePage> {
    return this.catalogue.list(ctx, query);
  }

  @Get(':serviceId')
  @Describe({
    id: 'getService',
    summary: 'One service',
    returns: ServiceResponse,
    problems: [404],
    versioned: true,
  })
  get(@Ctx() ctx: TenantContext, @Param('serviceId', idPipe) id: string): Promise<ServiceResponse> {
    return this.catalogue.get(ctx, id);
  }

  @Patch(':serviceId')
  @Describe({
    id: 'updateService',
    summary: 'Change or retire a service',
    description: 'Fields that are absent stay as they are. Visits that are booked keep the time they took.',
    returns: ServiceResponse,
    problems: [400, 404, 409],
    ifMatch: true,
  })
  update(
    @Ctx() ctx: TenantContext,
    @Param('serviceId', idPipe) id: string,
    @IfMatch() version: number,
    @Body() request: UpdateServiceRequest,
  ): Promise<ServiceResponse> {
    return this.catalogue.update(ctx, id, version, request);
  }
}

import { Body, Controller, Delete, Get, Param, ParseEnumPipe, Patch, Post, Put, Query } from '@nestjs/common';
import { ApiParam, ApiTags } from '@nestjs/swagger';
import { bikePartKinds, type BikePartKind, type TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { IfMatch } from '../../http/preconditions.js';
import { NotFound } from '../../http/problem.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import {
  BikeResponse,
  CreateBikeRequest,
  FittedPartPage,
  FittedPartRequest,
  FittedPartsQuery,
  UpdateBikeRequest,
} from './bikes.dto.js';
import { BikesService } from './bikes.service.js';

const partPipe = new ParseEnumPipe(Object.fromEntries(bikePartKinds.map((kind) => [kind, kind])), {
  exceptionFactory: () => new NotFound(),
});

@ApiTags('Bikes and shoes')
@Controller('v1/clients/:clientId/bikes')
export class BikesController {
  constructor(private readonly bikes: BikesService) {}

  @Post()
  @Describe({
    id: 'createBike',
    summary: "Record one of the client's bikes",
    returns: BikeResponse,
    status: 201,
    problems: [400, 404],
    once: true,
  })
  create(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
    @Body() request: CreateBikeRequest,
  ): Promise<BikeResponse> {
    return this.bikes.create(ctx, clientId, request);
  }

  @Get()
  @Describe({ id: 'listBikes', summary: "The client's bikes", returns: [BikeResponse], problems: [404] })
  list(@Ctx() ctx: TenantContext, @Param('clientId', idPipe) clientId: string): Promise<BikeResponse[]> {
    return this.bikes.list(ctx, clientId);
  }

  @Get(':bikeId')
  @Describe({
    id: 'getBike',
    summary: 'A bike with the parts in use',
    returns: BikeResponse,
    problems: [404],
    versioned: true,
  })
  get(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
    @Param('bikeId', idPipe) id: string,
  ): Promise<BikeResponse> {
    return this.bikes.get(ctx, { clientId, id });
  }

  @Patch(':bikeId')
  @Describe({
    id: 'updateBike',
    summary: 'Change what is known of a bike, or put it away',
    returns: BikeResponse,
    problems: [400, 404],
    ifMatch: true,
  })
  update(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
    @Param('bikeId', idPipe) id: string,
    @IfMatch() version: number,
    @Body() request: UpdateBikeRequest,
  ): Promise<BikeResponse> {
    return this.bikes.update(ctx, { clientId, id }, version, request);
  }

  @Get(':bikeId/parts')
  @Describe({
    id: 'listBikeParts',
    summary: 'Every part of a bike from when to when, and who fitted it',
    returns: FittedPartPage,
    problems: [400, 404],
  })
  parts(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
    @Param('bikeId', idPipe) id: string,
    @Query() query: FittedPartsQuery,
  ): Promise<FittedPartPage> {
    return this.bikes.history(ctx, { clientId, id }, query);
  }

  @Put(':bikeId/parts/:partKind')
  @ApiParam({ name: 'partKind', enum: bikePartKinds })
  @Describe({
    id: 'fitBikePart',
    summary: 'Fit a part; the one before it stays in the history',
    description:
      'The measures stand under the name of the kind: `{ "stem": { "lengthMm": 90, "angleDeg": -6 } }`.',
    returns: BikeResponse,
    problems: [400, 404, 422],
    ifMatch: true,
  })
  fit(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
    @Param('bikeId', idPipe) id: string,
    @Param('partKind', partPipe) kind: BikePartKind,
    @IfMatch() version: number,
    @Body() request: FittedPartRequest,
  ): Promise<BikeResponse> {
    return this.bikes.fit(ctx, { clientId, id }, kind, version, request);
  }

  @Delete(':bikeId/parts/:partKind')
  @ApiParam({ name: 'partKind', enum: bikePartKinds })
  @Describe({
    id: 'removeBikePart',
    summary: 'Take a part off without another in its place; it stays in the history',
    returns: BikeResponse,
    problems: [404],
    ifMatch: true,
  })
  remove(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
    @Param('bikeId', idPipe) id: string,
    @Param('partKind', partPipe) kind: BikePartKind,
    @IfMatch() version: number,
  ): Promise<BikeResponse> {
    return this.bikes.remove(ctx, { clientId, id }, kind, version);
  }
}

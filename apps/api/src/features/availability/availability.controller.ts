import { Controller, Get, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { Ctx } from '../../http/request-context.js';
import { FirstSlotsQuery, FirstSlotsResponse, ListSlotsQuery, SlotsResponse } from './availability.dto.js';
import { AvailabilityService } from './availability.service.js';

@ApiTags('Availability')
@Controller('v1/availability')
export class AvailabilityController {
  constructor(private readonly availability: AvailabilityService) {}

  @Get()
  @Describe({
    id: 'listSlots',
    summary: 'Starts a service may have, day by day',
    description:
      'Hours, breaks and closures, buffers, skills, equipment, benches, lead time and horizon are honoured. What is offered can be booked, until somebody else does.',
    returns: SlotsResponse,
    problems: [400, 422],
  })
  list(@Ctx() ctx: TenantContext, @Query() query: ListSlotsQuery): Promise<SlotsResponse> {
    return this.availability.list(ctx, query);
  }

  @Get('first')
  @Describe({
    id: 'firstSlots',
    summary: 'The first start a service may have, of all and of each fitter',
    returns: FirstSlotsResponse,
    problems: [400, 422],
  })
  first(@Ctx() ctx: TenantContext, @Query() query: FirstSlotsQuery): Promise<FirstSlotsResponse> {
    return this.availability.first(ctx, query);
  }
}

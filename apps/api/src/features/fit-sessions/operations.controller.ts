import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import { RouteConfig } from '@nestjs/platform-fastify';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import { OperationPage, OperationsQuery, OperationsRequest, OperationsResponse } from './operations.dto.js';
import { OperationsService } from './operations.service.js';
import { markUnreadablePayloads } from './unreadable-payloads.js';

@ApiTags('Work without a connection')
@Controller('v1/fit-sessions/:fitSessionId/operations')
export class OperationsController {
  constructor(private readonly operations: OperationsService) {}

  @Post()
  @RouteConfig({ beforeStorable: markUnreadablePayloads })
  @Describe({
    id: 'sendOperations',
    summary: 'Send what a device wrote to the session while it could not, as often as needed',
    description:
      "Each operation is carried out once, in the order of the device's own count; sent again, it gets the outcome it " +
      'had. One that comes before another is kept and waits. Each stands for itself: one that is refused does not undo ' +
      'the others. After 5xx or no answer at all, send all of it again. A payload that cannot be kept (NUL, half of a ' +
      'surrogate pair, nested deeper than 32) stands as `{"unreadable": true}` and is refused in its turn.',
    returns: OperationsResponse,
    problems: [400, 404],
  })
  send(
    @Ctx() ctx: TenantContext,
    @Param('fitSessionId', idPipe) id: string,
    @Body() request: OperationsRequest,
  ): Promise<OperationsResponse> {
    return this.operations.take(ctx, id, request);
  }

  @Get()
  @Describe({
    id: 'listOperations',
    summary:
      'Everything that was written to the session, by whichever way, in the order of being carried out',
    description:
      'Numbers run without a gap, so whoever has all up to one misses none by asking for those after it.',
    returns: OperationPage,
    problems: [400, 404],
  })
  list(
    @Ctx() ctx: TenantContext,
    @Param('fitSessionId', idPipe) id: string,
    @Query() query: OperationsQuery,
  ): Promise<OperationPage> {
    return this.operations.list(ctx, id, query);
  }
}

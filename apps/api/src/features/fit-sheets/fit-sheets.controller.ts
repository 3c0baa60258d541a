import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { PageQuery } from '../../http/paging.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import { FitSheetPage, FitSheetResponse, OrderFitSheetRequest } from './fit-sheets.dto.js';
import { FitSheetsService } from './fit-sheets.service.js';

@ApiTags('Fit sheets')
@Controller('v1')
export class FitSheetsController {
  constructor(private readonly sheets: FitSheetsService) {}

  @Post('fit-sessions/:fitSessionId/fit-sheets')
  @Describe({
    id: 'orderFitSheet',
    summary: 'Have a fit sheet made: PDF, page and drawings, from the record as it is now',
    description: 'It is made within seconds; of a session that is not signed it says that it is a draft.',
    returns: FitSheetResponse,
    status: 201,
    problems: [400, 404],
    once: true,
  })
  order(
    @Ctx() ctx: TenantContext,
    @Param('fitSessionId', idPipe) fitSessionId: string,
    @Body() request: OrderFitSheetRequest,
  ): Promise<FitSheetResponse> {
    return this.sheets.order(ctx, fitSessionId, request);
  }

  @Get('fit-sessions/:fitSessionId/fit-sheets')
  @Describe({
    id: 'listFitSheets',
    summary: "A session's fit sheets",
    returns: FitSheetPage,
    problems: [400, 404],
  })
  list(
    @Ctx() ctx: TenantContext,
    @Param('fitSessionId', idPipe) fitSessionId: string,
    @Query() query: PageQuery,
  ): Promise<FitSheetPage> {
    return this.sheets.list(ctx, fitSessionId, query);
  }

  @Get('fit-sheets/:fitSheetId')
  @Describe({
    id: 'getFitSheet',
    summary: 'A fit sheet: its state, and addresses to read it by',
    returns: FitSheetResponse,
    problems: [404],
  })
  get(@Ctx() ctx: TenantContext, @Param('fitSheetId', idPipe) id: string): Promise<FitSheetResponse> {
    return this.sheets.get(ctx, id);
  }
}

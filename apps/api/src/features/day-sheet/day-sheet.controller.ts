import { Controller, Get, Header, Query } from '@nestjs/common';
import { ApiOperation, ApiProduces, ApiResponse, ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe, Operation, Problems } from '../../http/documentation.js';
import { Ctx } from '../../http/request-context.js';
import { daySheetPage, daySheetPagePolicy } from './day-sheet-page.js';
import { DaySheetQuery, DaySheetResponse } from './day-sheet.dto.js';
import { DaySheetService } from './day-sheet.service.js';

@ApiTags('Day sheet')
@Controller('v1/day-sheet')
export class DaySheetController {
  constructor(private readonly sheet: DaySheetService) {}

  @Get()
  @Describe({
    id: 'getDaySheet',
    summary: 'A day by room and fitter: visits, intake, permission in force, what is to be done',
    returns: DaySheetResponse,
    problems: [400, 404],
  })
  day(@Ctx() ctx: TenantContext, @Query() query: DaySheetQuery): Promise<DaySheetResponse> {
    return this.sheet.day(ctx, query);
  }

  @Get('page')
  @Header('content-type', 'text/html; charset=utf-8')
  @Header('content-security-policy', daySheetPagePolicy)
  @Operation('getDaySheetPage')
  @ApiProduces('text/html')
  @ApiOperation({ operationId: 'getDaySheetPage', summary: 'The same as a plain page to print' })
  @ApiResponse({
    status: 200,
    description: 'A page.',
    content: { 'text/html': { schema: { type: 'string' } } },
  })
  @Problems(400, 404)
  async page(@Ctx() ctx: TenantContext, @Query() query: DaySheetQuery): Promise<string> {
    return daySheetPage(await this.sheet.day(ctx, query));
  }
}

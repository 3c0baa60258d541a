import { Controller, Get, Param, Res, UseFilters } from '@nestjs/common';
import { ApiExcludeController } from '@nestjs/swagger';
import type { FastifyReply } from 'fastify';
import { Operation } from '../../http/documentation.js';
import { RequestId } from '../../http/request-context.js';
import { PageFilter } from '../intake-pages/index.js';
import { FitSheetsService } from './fit-sheets.service.js';

/** The link a rider is mailed when their sheet is ready: to the page of it. */
@ApiExcludeController()
@Controller('fit-sheets/:link')
@Operation('openFitSheetLink')
@UseFilters(PageFilter)
export class FitSheetLinksController {
  constructor(private readonly sheets: FitSheetsService) {}

  @Get()
  async open(
    @Param('link') link: string,
    @RequestId() requestId: string,
    @Res() reply: FastifyReply,
  ): Promise<void> {
    const address = await this.sheets.pageOf(link, requestId);
    void reply.header('referrer-policy', 'no-referrer').redirect(address, 303);
  }
}

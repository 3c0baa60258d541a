import { Controller, Get, Param, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import { PersonExportResponse } from './person-exports.dto.js';
import { PersonExportsService } from './person-exports.service.js';

@ApiTags('Rights of the person')
@Controller('v1')
export class PersonExportsController {
  constructor(private readonly exports: PersonExportsService) {}

  @Post('rights-requests/:rightsRequestId/exports')
  @Describe({
    id: 'orderPersonExport',
    summary: 'Have a copy made of everything that is kept of the person',
    description:
      'One archive: JSON after a published schema, all files, and a page to read. The worker makes it within minutes; ' +
      'it is removed after seven days.',
    returns: PersonExportResponse,
    status: 201,
    problems: [404, 409],
    once: true,
  })
  order(
    @Ctx() ctx: TenantContext,
    @Param('rightsRequestId', idPipe) requestId: string,
  ): Promise<PersonExportResponse> {
    return this.exports.order(ctx, requestId);
  }

  @Get('rights-requests/:rightsRequestId/exports')
  @Describe({
    id: 'listPersonExports',
    summary: 'Copies made for a request, with an address to download each by',
    description: 'Every reading is kept in the audit log.',
    returns: [PersonExportResponse],
    problems: [404],
  })
  list(
    @Ctx() ctx: TenantContext,
    @Param('rightsRequestId', idPipe) requestId: string,
  ): Promise<PersonExportResponse[]> {
    return this.exports.list(ctx, requestId);
  }

  @Post('person-exports/:personExportId/mail')
  @Describe({
    id: 'mailPersonExport',
    summary: 'Mail the person a link to the copy that works once',
    problems: [404, 409],
  })
  mail(@Ctx() ctx: TenantContext, @Param('personExportId', idPipe) id: string): Promise<void> {
    return this.exports.mail(ctx, id);
  }
}

import { Body, Controller, Delete, Get, Param, Post, Put, Query } from '@nestjs/common';
import { ApiBody, ApiConsumes, ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { PageQuery } from '../../http/paging.js';
import { IfMatch } from '../../http/preconditions.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import {
  ClientImportPage,
  ClientImportResponse,
  DecideRowRequest,
  ImportRowPage,
  ImportRowResponse,
  ListImportRowsQuery,
  MapImportRequest,
} from './client-imports.dto.js';
import { CsvUnreadable } from './client-imports.errors.js';
import { ClientImportsService } from './client-imports.service.js';

/** 409 `client-imports.not-possible` names the state and what it allows. */
const change = { returns: ClientImportResponse, problems: [400, 404, 409], ifMatch: true } as const;

@ApiTags('Clients')
@Controller('v1')
export class ClientImportsController {
  constructor(private readonly imports: ClientImportsService) {}

  @Post('client-imports')
  @ApiConsumes('text/csv')
  @ApiBody({
    schema: { type: 'string', format: 'binary', example: 'First name;Last name\r\nMarta;Ferreira\r\n' },
  })
  @Describe({
    id: 'uploadClientImport',
    summary: 'Upload a list of clients as CSV; nobody is taken on yet',
    description:
      'At most 2 MiB and 5,000 rows. The first line has the headers. A byte order mark, UTF-8 or Windows-1252, and the separator (comma, semicolon, tab or bar) are told by the list itself.',
    returns: ClientImportResponse,
    status: 201,
    problems: [413, 415, 422],
    versioned: true,
    once: true,
  })
  upload(@Ctx() ctx: TenantContext, @Body() bytes: Buffer): Promise<ClientImportResponse> {
    if (!Buffer.isBuffer(bytes)) throw new CsvUnreadable('send it as text/csv');
    return this.imports.upload(ctx, bytes);
  }

  @Get('client-imports')
  @Describe({
    id: 'listClientImports',
    summary: 'Lists uploaded',
    returns: ClientImportPage,
    problems: [400],
  })
  list(@Ctx() ctx: TenantContext, @Query() query: PageQuery): Promise<ClientImportPage> {
    return this.imports.list(ctx, query);
  }

  @Get('client-imports/:clientImportId')
  @Describe({
    id: 'getClientImport',
    summary: 'A list, how far it is, and which columns seem to hold what',
    returns: ClientImportResponse,
    problems: [404],
    versioned: true,
  })
  get(@Ctx() ctx: TenantContext, @Param('clientImportId', idPipe) id: string): Promise<ClientImportResponse> {
    return this.imports.get(ctx, id);
  }

  @Put('client-imports/:clientImportId/mapping')
  @Describe({
    ...change,
    id: 'mapClientImport',
    summary: 'Say which column holds what; every row is checked by it',
  })
  map(
    @Ctx() ctx: TenantContext,
    @Param('clientImportId', idPipe) id: string,
    @IfMatch() version: number,
    @Body() request: MapImportRequest,
  ): Promise<ClientImportResponse> {
    return this.imports.map(ctx, id, version, request);
  }

  @Get('client-imports/:clientImportId/rows')
  @Describe({
    id: 'listClientImportRows',
    summary:
      'Its rows: as they would be taken on, what is wrong, who it likely is; afterwards what became of each',
    returns: ImportRowPage,
    problems: [400, 404],
  })
  rows(
    @Ctx() ctx: TenantContext,
    @Param('clientImportId', idPipe) id: string,
    @Query() query: ListImportRowsQuery,
  ): Promise<ImportRowPage> {
    return this.imports.rows(ctx, id, query);
  }

  @Put('client-import-rows/:clientImportRowId/decision')
  @Describe({
    id: 'decideClientImportRow',
    summary: 'Take a row on although it looks like a client there is, or leave it out',
    returns: ImportRowResponse,
    problems: [400, 404, 409],
  })
  decide(
    @Ctx() ctx: TenantContext,
    @Param('clientImportRowId', idPipe) id: string,
    @Body() request: DecideRowRequest,
  ): Promise<ImportRowResponse> {
    return this.imports.decide(ctx, id, request);
  }

  @Post('client-imports/:clientImportId/order')
  @Describe({
    ...change,
    id: 'orderClientImport',
    summary: 'Take the clients on',
    description:
      'Done by the worker, each row once whatever happens meanwhile. Rows that are not valid stay; a row likely to be a client there is is left out unless it was decided otherwise.',
  })
  order(
    @Ctx() ctx: TenantContext,
    @Param('clientImportId', idPipe) id: string,
    @IfMatch() version: number,
  ): Promise<ClientImportResponse> {
    return this.imports.order(ctx, id, version);
  }

  @Delete('client-imports/:clientImportId')
  @Describe({
    id: 'deleteClientImport',
    summary: 'Forget the list; the clients it brought stay',
    problems: [404, 409],
    ifMatch: true,
  })
  delete(
    @Ctx() ctx: TenantContext,
    @Param('clientImportId', idPipe) id: string,
    @IfMatch() version: number,
  ): Promise<void> {
    return this.imports.delete(ctx, id, version);
  }
}

import {
  Body,
  Controller,
  Get,
  Param,
  ParseEnumPipe,
  Patch,
  Post,
  Query,
  StreamableFile,
} from '@nestjs/common';
import { ApiParam, ApiTags } from '@nestjs/swagger';
import { consentKinds, type ConsentKind, type TenantContext } from '@studio/database';
import { Describe, DescribeFile } from '../../http/documentation.js';
import { NotFound } from '../../http/problem.js';
import { IfMatch } from '../../http/preconditions.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import {
  ClientPage,
  ClientResponse,
  ConsentResponse,
  CreateClientRequest,
  GiveConsentRequest,
  LikelyDuplicateResponse,
  ListClientsQuery,
  UpdateClientRequest,
} from './clients.dto.js';
import { ClientsService } from './clients.service.js';

// The rule does not see the use in a parameter's decorator.

const kindPipe = new ParseEnumPipe(Object.fromEntries(consentKinds.map((kind) => [kind, kind])), {
  exceptionFactory: () => new NotFound(),
});

@ApiTags('Clients')
@Controller('v1/clients')
export class ClientsController {
  constructor(private readonly clients: ClientsService) {}

  @Post()
  @Describe({
    id: 'createClient',
    summary: 'Take on a client',
    returns: ClientResponse,
    status: 201,
    problems: [400, 422],
    versioned: true,
    once: true,
  })
  create(@Ctx() ctx: TenantContext, @Body() request: CreateClientRequest): Promise<ClientResponse> {
    return this.clients.create(ctx, request);
  }

  @Get()
  @Describe({
    id: 'listClients',
    summary: 'Clients, by time of taking on',
    returns: ClientPage,
    problems: [400],
  })
  list(@Ctx() ctx: TenantContext, @Query() query: ListClientsQuery): Promise<ClientPage> {
    return this.clients.list(ctx, query);
  }

  @Get(':clientId')
  @Describe({
    id: 'getClient',
    summary: 'One client',
    returns: ClientResponse,
    problems: [404],
    versioned: true,
  })
  get(@Ctx() ctx: TenantContext, @Param('clientId', idPipe) clientId: string): Promise<ClientResponse> {
    return this.clients.get(ctx, clientId);
  }

  @Patch(':clientId')
  @Describe({
    id: 'updateClient',
    summary: "Change a client's details",
    description: 'Fields that are absent stay as they are. 412 when somebody was quicker.',
    returns: ClientResponse,
    problems: [400, 404, 422],
    ifMatch: true,
  })
  update(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
    @IfMatch() version: number,
    @Body() request: UpdateClientRequest,
  ): Promise<ClientResponse> {
    return this.clients.update(ctx, clientId, version, request);
  }

  @Get(':clientId/likely-duplicates')
  @Describe({
    id: 'listLikelyDuplicates',
    summary: 'Other clients who may be the same person, likeliest first',
    returns: [LikelyDuplicateResponse],
    problems: [404],
  })
  likelyDuplicates(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
  ): Promise<LikelyDuplicateResponse[]> {
    return this.clients.likelyDuplicates(ctx, clientId);
  }

  @Post(':clientId/consents')
  @Describe({
    id: 'giveConsent',
    summary: 'Record a consent the client gave',
    returns: ConsentResponse,
    status: 201,
    problems: [400, 404, 409],
    once: true,
  })
  giveConsent(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
    @Body() request: GiveConsentRequest,
  ): Promise<ConsentResponse> {
    return this.clients.giveConsent(ctx, clientId, request);
  }

  @Get(':clientId/consents')
  @Describe({
    id: 'listConsents',
    summary: 'Consents given and withdrawn',
    returns: [ConsentResponse],
    problems: [404],
  })
  listConsents(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
  ): Promise<ConsentResponse[]> {
    return this.clients.listConsents(ctx, clientId);
  }

  @Post(':clientId/consents/:kind/withdrawal')
  @ApiParam({ name: 'kind', enum: consentKinds })
  @Describe({
    id: 'withdrawConsent',
    summary: 'Record that the client took a consent back',
    description: 'Without `contact` nothing more is sent to the client.',
    problems: [404],
  })
  withdrawConsent(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
    @Param('kind', kindPipe) kind: ConsentKind,
  ): Promise<void> {
    return this.clients.withdrawConsent(ctx, clientId, kind);
  }

  @Get('export.csv')
  @DescribeFile({
    id: 'exportClients',
    summary: 'All clients as CSV, without those merged into others',
    description:
      'RFC 4180, UTF-8 with a byte order mark; a text that a spreadsheet would take for a formula is led by an apostrophe. Each export is kept in the audit log.',
    type: 'text/csv',
  })
  async exportCsv(@Ctx() ctx: TenantContext): Promise<StreamableFile> {
    return new StreamableFile(await this.clients.exportCsv(ctx), {
      type: 'text/csv; charset=utf-8',
      disposition: 'attachment; filename="clients.csv"',
    });
  }
}

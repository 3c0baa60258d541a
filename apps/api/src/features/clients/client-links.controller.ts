import { Body, Controller, Delete, Get, Param, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import { ClientLinkResponse, LinkClientRequest } from './client-links.dto.js';
import { ClientLinksService } from './client-links.service.js';

@ApiTags('Clients')
@Controller('v1')
export class ClientLinksController {
  constructor(private readonly links: ClientLinksService) {}

  @Post('clients/:clientId/links')
  @Describe({
    id: 'linkClient',
    summary: 'Family or team: what another client is to this one, and so this one to the other',
    returns: [ClientLinkResponse],
    status: 201,
    problems: [400, 404, 409, 422],
    once: true,
  })
  link(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
    @Body() request: LinkClientRequest,
  ): Promise<ClientLinkResponse[]> {
    return this.links.link(ctx, clientId, request);
  }

  @Get('clients/:clientId/links')
  @Describe({
    id: 'listClientLinks',
    summary: 'Family and team of a client',
    returns: [ClientLinkResponse],
    problems: [404],
  })
  list(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
  ): Promise<ClientLinkResponse[]> {
    return this.links.list(ctx, clientId);
  }

  @Delete('client-links/:clientLinkId')
  @Describe({ id: 'unlinkClient', summary: 'The two are not linked like this', problems: [404] })
  unlink(@Ctx() ctx: TenantContext, @Param('clientLinkId', idPipe) id: string): Promise<void> {
    return this.links.unlink(ctx, id);
  }
}

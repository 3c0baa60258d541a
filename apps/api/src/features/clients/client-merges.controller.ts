import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import { ClientMergeResponse, MergeClientRequest } from './client-merges.dto.js';
import { ClientMergesService } from './client-merges.service.js';

@ApiTags('Clients')
@Controller('v1')
export class ClientMergesController {
  constructor(private readonly merges: ClientMergesService) {}

  @Post('clients/:clientId/merges')
  @Describe({
    id: 'mergeClient',
    summary: 'Two records are of the same person: this one survives',
    description:
      'No record of either is moved. What belongs to the other is read under this one too, and the other takes no change any more: 409 `clients.merged` names the surviving one. Of two permissions and two consents the stricter holds.',
    returns: ClientMergeResponse,
    status: 201,
    problems: [400, 404, 409, 422],
    once: true,
  })
  merge(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
    @Body() request: MergeClientRequest,
  ): Promise<ClientMergeResponse> {
    return this.merges.merge(ctx, clientId, request);
  }

  @Get('clients/:clientId/merges')
  @Describe({
    id: 'listClientMerges',
    summary: 'Merges of the client, newest first, the undone ones too',
    returns: [ClientMergeResponse],
    problems: [404],
  })
  list(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
  ): Promise<ClientMergeResponse[]> {
    return this.merges.list(ctx, clientId);
  }

  @Post('client-merges/:clientMergeId/undo')
  @Describe({
    id: 'undoClientMerge',
    summary: 'They were two persons after all',
    description:
      'Both are as they were; what was changed or written since stays with the record it was written under. 409 `clients.later-merge-first` names the merge to be undone before.',
    returns: ClientMergeResponse,
    problems: [404, 409],
  })
  undo(@Ctx() ctx: TenantContext, @Param('clientMergeId', idPipe) id: string): Promise<ClientMergeResponse> {
    return this.merges.undo(ctx, id);
  }
}

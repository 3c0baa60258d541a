import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import {
  CreatedIntakeLinkResponse,
  CreateIntakeLinkRequest,
  IntakeLinkResponse,
} from './intake-links.dto.js';
import { IntakeLinksService } from './intake-links.service.js';

@ApiTags('Screening')
@Controller('v1')
export class IntakeLinksController {
  constructor(private readonly links: IntakeLinksService) {}

  @Post('clients/:clientId/intake-links')
  @Describe({
    id: 'createIntakeLink',
    summary: 'A one-time link by which the client answers the intake on pages of their own',
    description:
      'The link works until the answers are handed in. An open one of the same client is withdrawn by it; what was ' +
      'saved under that one is carried over. An Idempotency-Key counts for a link that is mailed; one that is handed ' +
      'over is told once and not kept.',
    returns: CreatedIntakeLinkResponse,
    status: 201,
    problems: [400, 404, 409],
    once: true,
  })
  create(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
    @Body() request: CreateIntakeLinkRequest,
  ): Promise<CreatedIntakeLinkResponse> {
    return this.links.create(ctx, clientId, request);
  }

  @Get('clients/:clientId/intake-links')
  @Describe({
    id: 'listIntakeLinks',
    summary: "A client's intake links and how far each has come, newest first; never an answer",
    returns: [IntakeLinkResponse],
    problems: [404],
  })
  list(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
  ): Promise<IntakeLinkResponse[]> {
    return this.links.list(ctx, clientId);
  }

  @Post('intake-links/:intakeLinkId/revocation')
  @Describe({
    id: 'revokeIntakeLink',
    summary: 'Withdraw an open intake link; what was saved is kept',
    returns: IntakeLinkResponse,
    problems: [404, 409],
  })
  revoke(@Ctx() ctx: TenantContext, @Param('intakeLinkId', idPipe) id: string): Promise<IntakeLinkResponse> {
    return this.links.revoke(ctx, id);
  }
}

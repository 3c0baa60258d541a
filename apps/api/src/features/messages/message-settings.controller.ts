import { Body, Controller, Get, Patch } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { IfMatch } from '../../http/preconditions.js';
import { Ctx } from '../../http/request-context.js';
import { MessageSettingsResponse, UpdateMessageSettingsRequest } from './message-settings.dto.js';
import { MessageSettingsService } from './message-settings.service.js';

@ApiTags('Messages')
@Controller('v1/message-settings')
export class MessageSettingsController {
  constructor(private readonly settings: MessageSettingsService) {}

  @Get()
  @Describe({
    id: 'getMessageSettings',
    summary: 'How the studio writes to its clients',
    returns: MessageSettingsResponse,
    versioned: true,
  })
  get(@Ctx() ctx: TenantContext): Promise<MessageSettingsResponse> {
    return this.settings.get(ctx);
  }

  @Patch()
  @Describe({
    id: 'updateMessageSettings',
    summary: 'Change sender, language, quiet hours, or what is sent by itself',
    description: 'What is queued already keeps its time; quiet hours hold for it all the same.',
    returns: MessageSettingsResponse,
    problems: [400],
    ifMatch: true,
  })
  update(
    @Ctx() ctx: TenantContext,
    @IfMatch() version: number,
    @Body() request: UpdateMessageSettingsRequest,
  ): Promise<MessageSettingsResponse> {
    return this.settings.update(ctx, version, request);
  }
}

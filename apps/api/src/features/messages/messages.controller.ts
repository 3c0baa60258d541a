import { Controller, Delete, Get, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import { ListMessagesQuery, MessagePage, MessageResponse } from './messages.dto.js';
import { MessagesService } from './messages.service.js';

@ApiTags('Messages')
@Controller('v1')
export class MessagesController {
  constructor(private readonly messages: MessagesService) {}

  @Get('messages')
  @Describe({
    id: 'listMessages',
    summary: 'What was sent, is to be sent, or could not be sent',
    returns: MessagePage,
    problems: [400],
  })
  list(@Ctx() ctx: TenantContext, @Query() query: ListMessagesQuery): Promise<MessagePage> {
    return this.messages.list(ctx, query);
  }

  @Get('messages/:messageId')
  @Describe({
    id: 'getMessage',
    summary: 'One message, with its words as they were sent',
    returns: MessageResponse,
    problems: [404],
  })
  get(@Ctx() ctx: TenantContext, @Param('messageId', idPipe) id: string): Promise<MessageResponse> {
    return this.messages.get(ctx, id);
  }

  @Post('messages/:messageId/repetition')
  @Describe({
    id: 'repeatMessage',
    summary: 'Send it once more, as a message of its own',
    description:
      'It tells what is so now, and goes out only if that is still wanted. 409 `messages.link-forgotten` where the ' +
      'message held a link that is kept nowhere.',
    returns: MessageResponse,
    status: 201,
    problems: [404, 409],
    once: true,
  })
  repeat(@Ctx() ctx: TenantContext, @Param('messageId', idPipe) id: string): Promise<MessageResponse> {
    return this.messages.repeat(ctx, id);
  }

  @Post('messages/:messageId/cancellation')
  @Describe({
    id: 'cancelMessage',
    summary: 'Call off a message that is still queued',
    returns: MessageResponse,
    problems: [404, 409],
  })
  cancel(@Ctx() ctx: TenantContext, @Param('messageId', idPipe) id: string): Promise<MessageResponse> {
    return this.messages.cancel(ctx, id);
  }

  @Delete('clients/:clientId/undeliverable-address')
  @Describe({
    id: 'clearUndeliverableAddress',
    summary: 'Mail to the client’s address again: it is right after all',
    problems: [404],
  })
  clearAddress(@Ctx() ctx: TenantContext, @Param('clientId', idPipe) clientId: string): Promise<void> {
    return this.messages.clearAddress(ctx, clientId);
  }
}

import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { ApiParam, ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { messageTemplateNames } from '@studio/job-contracts';
import { Describe } from '../../http/documentation.js';
import { Ctx } from '../../http/request-context.js';
import {
  MessageTemplateResponse,
  PreviewMessageRequest,
  PreviewResponse,
  RestoreMessageTextRequest,
  WriteMessageTextRequest,
} from './message-templates.dto.js';
import { MessageTemplatesService } from './message-templates.service.js';

const Template = (): MethodDecorator => ApiParam({ name: 'template', enum: messageTemplateNames });

@ApiTags('Messages')
@Controller('v1/message-templates')
export class MessageTemplatesController {
  constructor(private readonly templates: MessageTemplatesService) {}

  @Get()
  @Describe({
    id: 'listMessageTemplates',
    summary: 'Every kind of message, what it may speak of, and its words in force',
    returns: [MessageTemplateResponse],
  })
  list(@Ctx() ctx: TenantContext): Promise<MessageTemplateResponse[]> {
    return this.templates.list(ctx);
  }

  @Get(':template')
  @Template()
  @Describe({
    id: 'getMessageTemplate',
    summary: 'One kind of message',
    returns: MessageTemplateResponse,
    problems: [404],
  })
  get(@Ctx() ctx: TenantContext, @Param('template') template: string): Promise<MessageTemplateResponse> {
    return this.templates.get(ctx, template);
  }

  @Post(':template/texts')
  @Template()
  @Describe({
    id: 'writeMessageText',
    summary: 'Say it in the studio’s own words, as a new version',
    description:
      '400 names unknown placeholders, those the message is useless without, and a subject of several lines.',
    returns: MessageTemplateResponse,
    status: 201,
    problems: [400, 404, 412],
    once: true,
  })
  write(
    @Ctx() ctx: TenantContext,
    @Param('template') template: string,
    @Body() request: WriteMessageTextRequest,
  ): Promise<MessageTemplateResponse> {
    return this.templates.write(ctx, template, request);
  }

  @Post(':template/restoration')
  @Template()
  @Describe({
    id: 'restoreMessageText',
    summary: 'Say it in the standard words again; the studio’s own are kept as older versions',
    returns: MessageTemplateResponse,
    status: 201,
    problems: [400, 404, 412],
    once: true,
  })
  restore(
    @Ctx() ctx: TenantContext,
    @Param('template') template: string,
    @Body() request: RestoreMessageTextRequest,
  ): Promise<MessageTemplateResponse> {
    return this.templates.restore(ctx, template, request);
  }

  @Post(':template/preview')
  @Template()
  @Describe({
    id: 'previewMessage',
    summary: 'How it looks with sample values, in the words in force or in others',
    returns: PreviewResponse,
    problems: [400, 404],
  })
  preview(
    @Ctx() ctx: TenantContext,
    @Param('template') template: string,
    @Body() request: PreviewMessageRequest,
  ): Promise<PreviewResponse> {
    return this.templates.preview(ctx, template, request);
  }
}

import { Controller, Get, Param, Post, Res, UseFilters } from '@nestjs/common';
import { ApiExcludeController } from '@nestjs/swagger';
import type { FastifyReply } from 'fastify';
import { Operation } from '../../http/documentation.js';
import { RequestId } from '../../http/request-context.js';
import { sendPage } from '../intake-pages/index.js';
import { askPage, donePage } from './unsubscribe-page.js';
import { UnsubscribeFilter } from './unsubscribe.filter.js';
import { UnsubscribeService } from './unsubscribe.service.js';

/**
 * The address in List-Unsubscribe. Looking at it changes nothing, since programs that check mails for harm follow every
 * link; sending the form does, and so does the one click of a mail program (RFC 8058), which sends the same.
 */
@ApiExcludeController()
@Controller('unsubscribe/:link')
@Operation('unsubscribePages')
@UseFilters(UnsubscribeFilter)
export class UnsubscribeController {
  constructor(private readonly unsubscribing: UnsubscribeService) {}

  @Get()
  async ask(@Param('link') link: string, @Res() reply: FastifyReply): Promise<void> {
    sendPage(reply, askPage(await this.unsubscribing.look(link), `/unsubscribe/${link}`));
  }

  @Post()
  async unsubscribe(
    @Param('link') link: string,
    @RequestId() requestId: string,
    @Res() reply: FastifyReply,
  ): Promise<void> {
    sendPage(reply, donePage(await this.unsubscribing.unsubscribe(link, requestId)));
  }
}

import { Controller, Get, Param, Post, Res, UseFilters } from '@nestjs/common';
import { ApiExcludeController } from '@nestjs/swagger';
import type { FastifyReply } from 'fastify';
import { Operation } from '../../http/documentation.js';
import { RequestId } from '../../http/request-context.js';
import { sendPage, SentForm, type Form } from '../intake-pages/index.js';
import { ChoosePasswordFilter } from './choose-password.filter.js';
import { chosenPage, choosePage, wrongWith } from './choose-password-pages.js';
import { PasswordLinksService } from './password-links.service.js';

/** Where the mail of an invitation or a reset leads. Looking at it changes nothing: programs that check mails follow links. */
@ApiExcludeController()
@Controller('choose-password/:link')
@Operation('choosePasswordPages')
@UseFilters(ChoosePasswordFilter)
export class ChoosePasswordController {
  constructor(private readonly links: PasswordLinksService) {}

  @Get()
  async ask(@Param('link') link: string, @Res() reply: FastifyReply): Promise<void> {
    sendPage(reply, choosePage(await this.links.look(link), link));
  }

  @Post()
  async choose(
    @Param('link') link: string,
    @SentForm() form: Form,
    @RequestId() requestId: string,
    @Res() reply: FastifyReply,
  ): Promise<void> {
    const account = await this.links.look(link);
    const wrong = await wrongWith(form, (password) => this.links.choose(link, { password }, requestId));
    if (wrong === null) sendPage(reply, chosenPage(account));
    else sendPage(reply, choosePage(account, link, wrong), 422);
  }
}

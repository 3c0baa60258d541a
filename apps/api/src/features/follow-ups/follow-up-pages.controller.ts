import { Controller, Get, Param, Post, Query, Res, UseFilters } from '@nestjs/common';
import { ApiExcludeController } from '@nestjs/swagger';
import type { FastifyReply } from 'fastify';
import { Operation } from '../../http/documentation.js';
import { RequestId } from '../../http/request-context.js';
import { answer, PageFilter, SentForm, type Form } from '../intake-pages/index.js';
import { FollowUpPagesService } from './follow-up-pages.service.js';

const base = (link: string): string => `/follow-up/${link}`;

/** Pages for a client with a follow-up's one-time link: plain HTML, forms and redirects, as those of the intake. */
@ApiExcludeController()
@Controller('follow-up/:link')
@Operation('answerFollowUpPages')
@UseFilters(PageFilter)
export class FollowUpPagesController {
  constructor(private readonly pages: FollowUpPagesService) {}

  @Get()
  async start(
    @Param('link') link: string,
    @RequestId() requestId: string,
    @Res() reply: FastifyReply,
  ): Promise<void> {
    answer(reply, base(link), await this.pages.start(link, requestId));
  }

  @Post('start')
  async begin(
    @Param('link') link: string,
    @RequestId() requestId: string,
    @Res() reply: FastifyReply,
  ): Promise<void> {
    answer(reply, base(link), await this.pages.begin(link, requestId));
  }

  @Get('pages/:page')
  async page(
    @Param('link') link: string,
    @Param('page') page: string,
    @Query('change') change: unknown,
    @RequestId() requestId: string,
    @Res() reply: FastifyReply,
  ): Promise<void> {
    answer(reply, base(link), await this.pages.questions(link, page, change !== undefined, requestId));
  }

  @Post('pages/:page')
  async save(
    @Param('link') link: string,
    @Param('page') page: string,
    @SentForm() form: Form,
    @RequestId() requestId: string,
    @Res() reply: FastifyReply,
  ): Promise<void> {
    answer(reply, base(link), await this.pages.save(link, page, form, requestId));
  }

  @Get('urgent/:page')
  async urgent(
    @Param('link') link: string,
    @Param('page') page: string,
    @RequestId() requestId: string,
    @Res() reply: FastifyReply,
  ): Promise<void> {
    answer(reply, base(link), await this.pages.urgent(link, page, requestId));
  }

  @Get('review')
  async review(
    @Param('link') link: string,
    @RequestId() requestId: string,
    @Res() reply: FastifyReply,
  ): Promise<void> {
    answer(reply, base(link), await this.pages.review(link, requestId));
  }

  @Post('submit')
  async submit(
    @Param('link') link: string,
    @RequestId() requestId: string,
    @Res() reply: FastifyReply,
  ): Promise<void> {
    answer(reply, base(link), await this.pages.submit(link, requestId));
  }
}

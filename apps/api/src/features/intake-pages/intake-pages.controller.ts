import { Controller, Get, Param, Post, Query, Res, UseFilters } from '@nestjs/common';
import { ApiExcludeController } from '@nestjs/swagger';
import type { FastifyReply } from 'fastify';
import { Operation } from '../../http/documentation.js';
import { RequestId } from '../../http/request-context.js';
import { IntakePagesService } from './intake-pages.service.js';
import { PageFilter } from './page.filter.js';
import type { Form } from './read-form.js';
import { answer } from './send-page.js';
import { SentForm } from './sent-form.js';

const base = (link: string): string => `/intake/${link}`;

/** Pages for a client with a one-time link: plain HTML, forms and redirects. */
@ApiExcludeController()
@Controller('intake/:link')
@Operation('answerIntakePages')
@UseFilters(PageFilter)
export class IntakePagesController {
  constructor(private readonly pages: IntakePagesService) {}

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
    @SentForm() form: Form,
    @RequestId() requestId: string,
    @Res() reply: FastifyReply,
  ): Promise<void> {
    answer(reply, base(link), await this.pages.begin(link, form, requestId));
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

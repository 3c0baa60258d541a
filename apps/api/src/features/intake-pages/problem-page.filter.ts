import type { ArgumentsHost, ExceptionFilter } from '@nestjs/common';
import { html } from '@studio/documents';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { describeFailure, problemOf } from '../../http/problem.filter.js';
import { layout } from './layout.js';
import { sendPage } from './send-page.js';

/** What a page says where another was asked for. */
export type PageWords = readonly [title: string, whatNow: string];

/** What goes wrong is told as a page to somebody who came by a link. */
export abstract class ProblemPageFilter implements ExceptionFilter {
  protected readonly forStaff: boolean = false;

  protected abstract wordsFor(error: unknown): PageWords;

  catch(error: unknown, host: ArgumentsHost): void {
    const request = host.switchToHttp().getRequest<FastifyRequest>();
    const reply = host.switchToHttp().getResponse<FastifyReply>();
    const { status } = problemOf(error, request.id);
    if (status >= 500) request.log.error({ failure: describeFailure(error) }, 'request failed');
    const [title, whatNow] = this.wordsFor(error);
    const body = html`<h1>${title}</h1>
      <p>${whatNow}</p>`;
    sendPage(reply, layout({ title, body, forStaff: this.forStaff }), status);
  }
}

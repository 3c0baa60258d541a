import { Catch, type ArgumentsHost, type ExceptionFilter } from '@nestjs/common';
import { html } from '@studio/documents';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { describeFailure } from '../../http/problem.filter.js';
import { ApiError } from '../../http/problem.js';
import { layout, sendPage } from '../intake-pages/index.js';

/** What goes wrong under /exports is told as a page, to a person who has no account. */
@Catch()
export class ExportPageFilter implements ExceptionFilter {
  catch(error: unknown, host: ArgumentsHost): void {
    const request = host.switchToHttp().getRequest<FastifyRequest>();
    const reply = host.switchToHttp().getResponse<FastifyReply>();
    const status = error instanceof ApiError ? error.status : 500;
    if (status >= 500) request.log.error({ failure: describeFailure(error) }, 'request failed');
    const [title, whatNow] =
      status === 404
        ? [
            'This link leads nowhere any more',
            'It was used, has run out, or a part of it was cut off. Please ask the studio for another.',
          ]
        : ['Something failed on our side', 'Please try again in a few minutes, or call the studio.'];
    const body = html`<h1>${title}</h1>
      <p>${whatNow}</p>`;
    sendPage(reply, layout({ title, body }), status);
  }
}

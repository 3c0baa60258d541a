import { Catch, type ArgumentsHost, type ExceptionFilter } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { describeFailure } from '../../http/problem.filter.js';
import { ApiError } from '../../http/problem.js';
import { html, type Html } from '@studio/documents';
import { LinkClosed } from './intake-pages.errors.js';
import { layout } from './layout.js';
import { sendPage } from './send-page.js';

/** What goes wrong is told as a page, to a person who has no account. */
@Catch()
export class PageFilter implements ExceptionFilter {
  catch(error: unknown, host: ArgumentsHost): void {
    const request = host.switchToHttp().getRequest<FastifyRequest>();
    const reply = host.switchToHttp().getResponse<FastifyReply>();
    const status = error instanceof ApiError ? error.status : 500;
    if (status >= 500) request.log.error({ failure: describeFailure(error) }, 'request failed');
    sendPage(reply, problemPage(error), status);
  }
}

function problemPage(error: unknown): Html {
  const [title, whatNow] = wordsFor(error);
  return layout({
    title,
    body: html`<h1>${title}</h1>
      <p>${whatNow}</p>`,
  });
}

function wordsFor(error: unknown): readonly [title: string, whatNow: string] {
  if (error instanceof LinkClosed) return [error.title, error.whatNow];
  if (error instanceof ApiError && error.status === 404) {
    return [
      'We do not know this link',
      'Perhaps a part of it was cut off: try the whole link from your mail, or ask the studio for a new one.',
    ];
  }
  if (error instanceof ApiError && error.code === 'clients.consent-missing') {
    return [
      'Your consent was taken back',
      'So nothing more is kept. What you had answered before is still there: open the link from your mail to agree again and go on.',
    ];
  }
  return [
    'Something failed on our side',
    'What you had sent before is kept. Please go back and try again in a few minutes.',
  ];
}

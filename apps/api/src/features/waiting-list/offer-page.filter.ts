import { Catch, type ArgumentsHost, type ExceptionFilter } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { html } from '@studio/documents';
import { describeFailure } from '../../http/problem.filter.js';
import { ApiError } from '../../http/problem.js';
import { layout, sendPage } from '../intake-pages/index.js';
import { closedWords } from './offer-pages.js';
import { OfferAnswered } from './waiting-list.errors.js';

/** What goes wrong under /offers is told as a page, to a person who has no account. */
@Catch()
export class OfferPageFilter implements ExceptionFilter {
  catch(error: unknown, host: ArgumentsHost): void {
    const request = host.switchToHttp().getRequest<FastifyRequest>();
    const reply = host.switchToHttp().getResponse<FastifyReply>();
    const status = error instanceof ApiError ? error.status : 500;
    if (status >= 500) request.log.error({ failure: describeFailure(error) }, 'request failed');
    const [title, whatNow] = wordsFor(error);
    const body = html`<h1>${title}</h1>
      <p>${whatNow}</p>`;
    sendPage(reply, layout({ title, body }), status);
  }
}

function wordsFor(error: unknown): readonly [title: string, whatNow: string] {
  if (error instanceof OfferAnswered && error.state !== 'open') return closedWords[error.state];
  if (error instanceof ApiError && error.status === 404) {
    return [
      'We do not know this link',
      'Perhaps a part of it was cut off: try the whole link from your mail, or call the studio.',
    ];
  }
  // Why somebody may not be booked is for the studio to say, by phone.
  if (error instanceof ApiError && error.status === 409) {
    return ['Please call the studio', 'Before this time can be yours the studio has to talk to you.'];
  }
  return ['Something failed on our side', 'Please try again in a few minutes, or call the studio.'];
}

import { Catch, type ArgumentsHost, type ExceptionFilter } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { describeFailure } from '../../http/problem.filter.js';
import { ApiError } from '../../http/problem.js';
import { sendPage } from '../intake-pages/index.js';
import { failedPage, unknownPage } from './unsubscribe-page.js';

/** What goes wrong is told as a page, to a person who has no account. */
@Catch()
export class UnsubscribeFilter implements ExceptionFilter {
  catch(error: unknown, host: ArgumentsHost): void {
    const request = host.switchToHttp().getRequest<FastifyRequest>();
    const reply = host.switchToHttp().getResponse<FastifyReply>();
    const status = error instanceof ApiError ? error.status : 500;
    if (status >= 500) request.log.error({ failure: describeFailure(error) }, 'request failed');
    sendPage(reply, status === 404 ? unknownPage() : failedPage(), status);
  }
}

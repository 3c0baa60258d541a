import { LogController, type FastifyReply, type FastifyRequest } from 'fastify';

/** One line per answer, of its route only: a path can hold a one-time link, a query a name. */
export class AnswerLog extends LogController {
  constructor() {
    super({ disableRequestLogging: true });
  }

  override requestCompleted(_error: Error | null, request: FastifyRequest, reply: FastifyReply): void {
    const { method, routeOptions } = request;
    const ms = Math.round(reply.elapsedTime * 10) / 10;
    request.log.info({ method, route: routeOptions.url, status: reply.statusCode, ms }, 'answered');
  }
}

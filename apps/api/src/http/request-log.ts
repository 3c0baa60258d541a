import type { NestFastifyApplication } from '@nestjs/platform-fastify';

/** One line per answer, of its route only: a path can hold a one-time link, a query a name. */
export function logAnswers(app: NestFastifyApplication): void {
  app
    .getHttpAdapter()
    .getInstance()
    .addHook('onResponse', (request, reply, done) => {
      request.log.info(
        {
          method: request.method,
          route: request.routeOptions.url,
          status: reply.statusCode,
          ms: Math.round(reply.elapsedTime * 10) / 10,
        },
        'answered',
      );
      done();
    });
}

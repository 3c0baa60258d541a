import { isTracing, startSpan, type OpenSpan } from '@studio/tracing';
import type { FastifyInstance, FastifyRequest } from 'fastify';

/**
 * A span for every request, by its route: a path can hold a one-time link. Lines of the log get its trace's id.
 *
 * @param options.trustCallers whether a trace goes on that the request names (W3C Trace Context)
 */
export function traceRequests(
  server: Pick<FastifyInstance, 'addHook'>,
  { trustCallers }: { trustCallers: boolean },
): void {
  if (!isTracing()) return;
  const spans = new WeakMap<FastifyRequest, OpenSpan>();

  server.addHook('onRequest', (request, reply, done) => {
    const { method, routeOptions, headers } = request;
    const route = routeOptions.url;
    const given = headers['traceparent'];
    const span = startSpan({
      name: route === undefined ? method : `${method} ${route}`,
      kind: 'server',
      attributes: {
        'http.request.method': method,
        ...(route !== undefined && { 'http.route': route }),
        'studio.request_id': request.id,
      },
      parent: trustCallers && typeof given === 'string' ? given : undefined,
    });
    if (span) {
      spans.set(request, span);
      request.log = request.log.child({ traceId: span.traceId });
      // Also when the caller went away.
      reply.raw.once('close', () => {
        const { statusCode } = reply;
        const failed = statusCode >= 500 ? String(statusCode) : undefined;
        span.end({ attributes: { 'http.response.status_code': statusCode }, failed });
      });
    }
    done();
  });

  // Not before: what a body's bytes call back does not belong to the request.
  server.addHook('preValidation', (request, _reply, done) => {
    const span = spans.get(request);
    if (span) span.within(done);
    else done();
  });
}

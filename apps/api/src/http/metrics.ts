import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { once } from 'node:events';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { collectDefaultMetrics, Histogram, Registry } from 'prom-client';

/**
 * Serves `GET /metrics` for Prometheus at a port of its own, which nobody outside is to reach: how long answers took, by
 * route, never by path, studio or person.
 *
 * @returns the port it listens at
 */
export async function serveMetrics(
  app: NestFastifyApplication,
  { host, port }: { host: string; port: number },
): Promise<number> {
  const registry = new Registry();
  collectDefaultMetrics({ register: registry });
  const seconds = new Histogram({
    name: 'studio_http_answer_seconds',
    help: 'How long an answer took.',
    labelNames: ['method', 'route', 'status'] as const,
    buckets: [0.001, 0.0025, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 2.5, 5, 10],
    registers: [registry],
  });
  const fastify = app.getHttpAdapter().getInstance();
  fastify.addHook('onResponse', (request, reply, done) => {
    const { method, routeOptions } = request;
    const route = routeOptions.url ?? 'none';
    seconds.observe({ method, route, status: reply.statusCode }, reply.elapsedTime / 1000);
    done();
  });

  const server = createServer((request, response) => {
    if (request.url !== '/metrics') {
      response.writeHead(404).end();
      return;
    }
    void registry
      .metrics()
      .then((text) => response.writeHead(200, { 'content-type': registry.contentType }).end(text));
  });
  fastify.addHook('onClose', (_instance, done) => {
    server.closeAllConnections();
    server.close(() => {
      done();
    });
  });
  server.listen(port, host);
  await once(server, 'listening');
  return (server.address() as AddressInfo).port;
}

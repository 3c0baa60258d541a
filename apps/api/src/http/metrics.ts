import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { once } from 'node:events';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { TenantReads } from '@studio/database';
import { collectDefaultMetrics, Gauge, Histogram, Registry } from 'prom-client';
import { DataSource } from 'typeorm';

/**
 * Serves `GET /metrics` for Prometheus at a port of its own, which nobody outside is to reach: how long answers took, by
 * route, never by path, studio or person; and how many wait for a connection to the database.
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
  const reads = app.get(TenantReads);
  const transactions = app.get(DataSource).driver as unknown as {
    readonly master: { readonly waitingCount: number };
  };
  new Gauge({
    name: 'studio_database_waiting',
    help: 'Requests that wait for a connection of the pool.',
    labelNames: ['pool'] as const,
    registers: [registry],
    collect() {
      this.set({ pool: 'reads' }, reads.waiting);
      this.set({ pool: 'transactions' }, transactions.master.waitingCount);
    },
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

import helmet from '@fastify/helmet';
import { NestFactory } from '@nestjs/core';
import { FastifyAdapter, type NestFastifyApplication } from '@nestjs/platform-fastify';
import type { ApiConfig } from '@studio/config';
import { randomUUID } from 'node:crypto';
import { pino } from 'pino';
import { AppModule } from './app.module.js';
import { HttpModule } from './http/http.module.js';

const bodyLimitBytes = 256 * 1024;

/** The whole API, not yet listening. */
export async function createApp(config: ApiConfig): Promise<NestFastifyApplication> {
  const adapter = new FastifyAdapter({
    bodyLimit: bodyLimitBytes,
    genReqId: () => randomUUID(),
    loggerInstance: pino({ level: config.logLevel, serializers: { req: requestForLog } }),
    // Ids in paths are UUIDs or one-time links; nothing longer is ours.
    routerOptions: { maxParamLength: 300 },
  });
  const app = await NestFactory.create<NestFastifyApplication>(
    { module: AppModule, imports: [HttpModule.with(config)] },
    adapter,
    { logger: ['error', 'warn'] },
  );
  // The docs page is served over plain HTTP on loopback too.
  await app.register(helmet, { contentSecurityPolicy: { directives: { upgradeInsecureRequests: null } } });
  app
    .getHttpAdapter()
    .getInstance()
    .addHook('onSend', async (request, reply) => {
      reply.header('x-request-id', request.id).header('cache-control', 'no-store');
    });
  app.enableShutdownHooks([], { useProcessExit: true });
  return app;
}

/** Method and route only: a path can hold a one-time link, a query a name. */
function requestForLog(request: { method: string; routeOptions?: { url?: string | undefined } }): object {
  return { method: request.method, route: request.routeOptions?.url };
}

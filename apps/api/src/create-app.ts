import multipart from '@fastify/multipart';
import { NestFactory } from '@nestjs/core';
import { FastifyAdapter, type NestFastifyApplication } from '@nestjs/platform-fastify';
import type { ApiConfig } from '@studio/config';
import { randomUUID } from 'node:crypto';
import { pino } from 'pino';
import { AppModule } from './app.module.js';
import { AnswerLog } from './http/answer-log.js';
import { finishAnswers } from './http/answers.js';
import { HttpModule } from './http/http.module.js';
import { endQuietConnections } from './http/quiet-connections.js';
import { readRefusedBodies } from './http/refused-bodies.js';
import { serverProblems } from './http/server-problems.js';
import { notStorable } from './http/storable.js';
import { traceRequests } from './http/trace-requests.js';

const bodyLimitBytes = 256 * 1024;
/** For a request to arrive whole; a slow line takes about one for the longest file. */
const requestTimeoutMs = 2 * 60_000;
const csvLimitBytes = 2 * 1024 * 1024;
/** A minute at 240 samples a second, thirteen columns, comes to some 1.5 MB. */
const largerBodies: Readonly<Record<string, number>> = {
  '/v1/calculations/captured-motion': 4 * 1024 * 1024,
  // A report may carry the whole mail it is about.
  '/v1/mail-reports': 2 * 1024 * 1024,
  '/v1/fit-sessions/:fitSessionId/motion-recordings': 4 * 1024 * 1024,
};

/** Written in blocks, within a second, and at the end: a write for every line cost a twelfth of a read. */
const logOutput = () => pino.destination({ sync: false, minLength: 4096, periodicFlush: 1000 });

/** The whole API, not yet listening. */
export async function createApp(config: ApiConfig): Promise<NestFastifyApplication> {
  const adapter = new FastifyAdapter({
    ...serverProblems,
    bodyLimit: bodyLimitBytes,
    requestTimeout: requestTimeoutMs,
    genReqId: () => randomUUID(),
    loggerInstance: pino({ level: config.logLevel }, logOutput()),
    logController: new AnswerLog(),
    trustProxy: config.trustedProxies.length > 0 ? config.trustedProxies : false,
    // Ids in paths are UUIDs or one-time links; nothing longer is ours.
    routerOptions: { maxParamLength: 300 },
  });
  adapter.getInstance().addHook('onRoute', (route) => {
    const larger = largerBodies[route.url];
    if (larger !== undefined) route.bodyLimit = larger;
  });
  const server = adapter.getInstance();
  traceRequests(server, { trustCallers: config.trustTraceparent });
  readRefusedBodies(server);
  endQuietConnections(server);
  server.addHook('preValidation', ({ body, query, routeOptions }, _reply, done) => {
    routeOptions.config.beforeStorable?.(body);
    done(notStorable(query) ?? notStorable(body));
  });
  server.addContentTypeParser('message/rfc822', { parseAs: 'buffer' }, (_request, body, done) => {
    done(null, body);
  });
  const app = await NestFactory.create<NestFastifyApplication>(
    { module: AppModule, imports: [HttpModule.with(config)] },
    adapter,
    { logger: ['error', 'warn'] },
  );
  // Read whole, as bytes: what they are in is told by them.
  app.useBodyParser('text/csv', { bodyLimit: csvLimitBytes });
  await app.register(multipart);
  finishAnswers(app);
  app.enableShutdownHooks([], { useProcessExit: true });
  return app;
}

import { NestFactory } from '@nestjs/core';
import { FastifyAdapter, type NestFastifyApplication } from '@nestjs/platform-fastify';
import type { ApiConfig } from '@studio/config';
import { randomUUID } from 'node:crypto';
import { pino } from 'pino';
import { AppModule } from './app.module.js';
import { AnswerLog } from './http/answer-log.js';
import { addAnswerHeaders } from './http/answer-headers.js';
import { HttpModule } from './http/http.module.js';

const bodyLimitBytes = 256 * 1024;

/** The whole API, not yet listening. */
export async function createApp(config: ApiConfig): Promise<NestFastifyApplication> {
  const adapter = new FastifyAdapter({
    bodyLimit: bodyLimitBytes,
    genReqId: () => randomUUID(),
    loggerInstance: pino({ level: config.logLevel }),
    logController: new AnswerLog(),
    // Ids in paths are UUIDs or one-time links; nothing longer is ours.
    routerOptions: { maxParamLength: 300 },
  });
  const app = await NestFactory.create<NestFastifyApplication>(
    { module: AppModule, imports: [HttpModule.with(config)] },
    adapter,
    { logger: ['error', 'warn'] },
  );
  addAnswerHeaders(app);
  app.enableShutdownHooks([], { useProcessExit: true });
  return app;
}

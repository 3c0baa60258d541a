import 'reflect-metadata';
import { NestFactory } from '@nestjs/core';
import { ConfigError, workerConfig } from '@studio/config';
import { startTracing } from '@studio/tracing';
import { WorkerModule } from './worker.module.js';

try {
  const config = workerConfig(process.env);
  // Before anything is made that tells its spans.
  await startTracing({ service: 'studio-worker', url: config.tracesUrl });
  const app = await NestFactory.createApplicationContext(WorkerModule.with(config), {
    logger: ['error', 'warn'],
  });
  app.enableShutdownHooks([], { useProcessExit: true });
  for (const signal of ['SIGTERM', 'SIGINT'] as const) process.once(signal, endInTime);
} catch (error) {
  process.stderr.write(`${error instanceof ConfigError ? error.message : String(error)}\n`);
  process.exit(1);
}

/** What is unfinished then is taken up again: the outbox still holds it. With Redis away, closing would never end. */
function endInTime(): void {
  setTimeout(() => process.exit(1), 25_000).unref();
}

import 'reflect-metadata';
import { NestFactory } from '@nestjs/core';
import { ConfigError, workerConfig } from '@studio/config';
import { WorkerModule } from './worker.module.js';

try {
  const app = await NestFactory.createApplicationContext(WorkerModule.with(workerConfig(process.env)), {
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

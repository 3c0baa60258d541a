import 'reflect-metadata';
import { NestFactory } from '@nestjs/core';
import { ConfigError, workerConfig } from '@studio/config';
import { WorkerModule } from './worker.module.js';

try {
  const app = await NestFactory.createApplicationContext(WorkerModule.with(workerConfig(process.env)), {
    logger: ['error', 'warn'],
  });
  app.enableShutdownHooks();
} catch (error) {
  process.stderr.write(`${error instanceof ConfigError ? error.message : String(error)}\n`);
  process.exit(1);
}

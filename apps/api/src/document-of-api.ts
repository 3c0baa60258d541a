import 'reflect-metadata';
import { NestFactory } from '@nestjs/core';
import { FastifyAdapter } from '@nestjs/platform-fastify';
import type { OpenAPIObject } from '@nestjs/swagger';
import { apiConfig } from '@studio/config';
import { AppModule } from './app.module.js';
import { HttpModule } from './http/http.module.js';
import { openApiDocument } from './openapi.js';

/** The OpenAPI document without a server or a database: only the routes are read. */
export async function documentOfApi(): Promise<OpenAPIObject> {
  const config = apiConfig({
    DATABASE_URL: 'postgres://nobody@127.0.0.1/none',
    PUBLIC_URL: 'http://127.0.0.1',
    TOKEN_SECRET: 'not used, since nothing is ever signed here',
    WEBHOOK_KEY: 'not used, since nothing is ever signed here',
    MASTER_KEYS: `none:${'A'.repeat(43)}`,
  });
  const app = await NestFactory.create(
    { module: AppModule, imports: [HttpModule.with(config)] },
    new FastifyAdapter(),
    { preview: true, logger: false, abortOnError: false },
  );
  return openApiDocument(app);
}

import 'reflect-metadata';
import { apiConfig, ConfigError } from '@studio/config';
import { startTracing } from '@studio/tracing';
import { createApp } from './create-app.js';
import { SwaggerModule } from '@nestjs/swagger';
import { serveMetrics } from './http/metrics.js';
import { openApiDocument } from './openapi.js';

try {
  const config = apiConfig(process.env);
  // Before anything is made that tells its spans.
  await startTracing({ service: 'studio-api', url: config.tracesUrl });
  const app = await createApp(config);
  SwaggerModule.setup('docs', app, () => openApiDocument(app), { jsonDocumentUrl: 'openapi.json' });
  if (config.metricsPort !== undefined) {
    await serveMetrics(app, { host: config.host, port: config.metricsPort });
  }
  await app.listen(config.port, config.host);
} catch (error) {
  process.stderr.write(`${error instanceof ConfigError ? error.message : String(error)}\n`);
  process.exit(1);
}

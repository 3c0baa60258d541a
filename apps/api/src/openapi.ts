import type { INestApplication } from '@nestjs/common';
import { DocumentBuilder, SwaggerModule, type OpenAPIObject } from '@nestjs/swagger';
import { addExamples } from './examples.js';
import { describeCalculations } from './features/calculations/describe-calculations.js';
import { shareProblems } from './share-problems.js';

const description = `Records backend of a bike-fitting studio: booking, screening, fit sessions, follow-ups, outcomes.

Sign in with \`POST /v1/sign-ins\` and send the access token as a bearer. Every failure is a problem document
(RFC 9457) with a stable \`code\`. Another studio's record is answered like a missing one: 404.

Lengths are millimetres and angles degrees, as the field names say. The screening sorts and routes; it does not
diagnose, and it defers to licensed practice.`;

export function openApiDocument(app: INestApplication): OpenAPIObject {
  const config = new DocumentBuilder()
    .setOpenAPIVersion('3.1.0')
    .setTitle('Fitting studio API')
    .setVersion('1')
    .setDescription(description)
    .addBearerAuth({ type: 'http', scheme: 'bearer', bearerFormat: 'JWT' })
    .build();
  const document = SwaggerModule.createDocument(app, config);
  markIds(document);
  describeCalculations(document);
  addExamples(document);
  shareProblems(document);
  return document;
}

/** Path parameters that end in `Id` are UUIDs; the pipe that reads them cannot tell the document. */
function markIds(document: OpenAPIObject): void {
  for (const item of Object.values(document.paths)) {
    for (const operation of [item.get, item.post, item.put, item.patch, item.delete]) {
      for (const parameter of operation?.parameters ?? []) {
        if ('schema' in parameter && parameter.in === 'path' && parameter.name.endsWith('Id')) {
          parameter.schema = { type: 'string', format: 'uuid' };
        }
      }
    }
  }
}

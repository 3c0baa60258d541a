import type { OpenAPIObject } from '@nestjs/swagger';
import { sample } from 'openapi-sampler';

type Schema = Parameters<typeof sample>[0];

/** Gives every body of the document a whole example, put together from the examples of its fields. */
export function addExamples(document: OpenAPIObject): void {
  for (const path of Object.values(document.paths)) {
    for (const operation of [path.get, path.post, path.put, path.patch, path.delete]) {
      for (const described of [operation?.requestBody, ...Object.values(operation?.responses ?? {})]) {
        const content = described && 'content' in described ? described.content : undefined;
        for (const body of Object.values(content ?? {})) {
          if (body.schema) body.example ??= sample(body.schema as Schema, { quiet: true }, document);
        }
      }
    }
  }
}

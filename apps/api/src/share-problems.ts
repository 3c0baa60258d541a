import type { OpenAPIObject } from '@nestjs/swagger';
import { STATUS_CODES } from 'node:http';
import { isDeepStrictEqual } from 'node:util';

type Responses = NonNullable<NonNullable<OpenAPIObject['components']>['responses']>;

/** What nearly every operation may answer is said once: a response named for its status, and references to it. */
export function shareProblems(document: OpenAPIObject): void {
  const shared: Responses = {};
  for (const path of Object.values(document.paths)) {
    for (const operation of [path.get, path.post, path.put, path.patch, path.delete]) {
      const responses = operation?.responses ?? {};
      for (const [status, response] of Object.entries(responses)) {
        const name = STATUS_CODES[status]?.replaceAll(/\W/g, '');
        if (Number(status) < 400 || response === undefined || name === undefined) continue;
        shared[name] ??= response;
        if (isDeepStrictEqual(shared[name], response)) {
          responses[status] = { $ref: `#/components/responses/${name}` };
        }
      }
    }
  }
  document.components = { ...document.components, responses: shared };
}

import { describe, expect, it } from '@jest/globals';
import { Ajv2020 } from 'ajv/dist/2020.js';
import formats from 'ajv-formats';
import { readFileSync } from 'node:fs';

interface Body {
  schema: object;
  example?: unknown;
}
interface Operation {
  operationId: string;
  summary: string;
  requestBody?: { content: Record<string, Body> };
  responses: Responses;
}
type Responses = Record<string, { content?: Record<string, Body> }>;
const document = JSON.parse(
  readFileSync(new URL('../../libs/api-client/openapi.json', import.meta.url), 'utf8'),
) as { paths: Record<string, Record<string, Operation>>; components: { responses: Responses } };

const inResponses = (of: string, responses: Responses): (readonly [string, Body])[] =>
  Object.entries(responses).flatMap(([name, { content }]) =>
    Object.entries(content ?? {})
      .filter(([type]) => type.includes('json'))
      .map(([, body]) => [`${of} ${name}`, body] as const),
  );
const bodies = [
  ...inResponses('any', document.components.responses),
  ...Object.values(document.paths)
    .flatMap((path) => Object.values(path))
    .flatMap(({ operationId, requestBody, responses }) => [
      ...Object.values(requestBody?.content ?? {}).map((body) => [`${operationId} request`, body] as const),
      ...inResponses(operationId, responses),
    ]),
];

const ajv = new Ajv2020({ strict: false, allErrors: true });
formats.default(ajv);
ajv.addSchema(document, 'openapi.json');

/** What a generator writes where a field has no example of its own. */
const placeholders = (value: unknown, path = ''): string[] => {
  if (value === 'string') return [path];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => placeholders(inner, `${path}/${key}`));
};

describe('the OpenAPI document', () => {
  it('says what each operation does', () => {
    const operations = Object.values(document.paths).flatMap((path) => Object.values(path));
    expect(operations.length).toBeGreaterThan(40);
    for (const { operationId, summary } of operations) {
      expect([operationId, summary.length > 5]).toEqual([operationId, true]);
    }
  });

  it.each(bodies)('%s has an example that is one', (_, { schema, example }) => {
    const ref = (schema as { $ref?: string }).$ref;
    const validate = ajv.compile(ref === undefined ? absolute(schema) : { $ref: `openapi.json${ref}` });
    validate(example);
    expect(validate.errors ?? []).toEqual([]);
    expect(placeholders(example)).toEqual([]);
  });
});

/** An inline schema refers to the document it stands in. */
function absolute(schema: object): object {
  return JSON.parse(JSON.stringify(schema).replaceAll('"#/', '"openapi.json#/')) as object;
}

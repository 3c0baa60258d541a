import { readFileSync } from 'node:fs';
import path from 'node:path';

export interface Schema {
  $ref?: string;
  /** One schema with a description of its own beside it. */
  allOf?: Schema[];
  /** Forms it may have; the first is taken as well as another. */
  oneOf?: Schema[];
  anyOf?: Schema[];
  const?: unknown;
  type?: string | string[];
  format?: string;
  enum?: unknown[];
  example?: unknown;
  minimum?: number;
  maximum?: number;
  maxLength?: number;
  properties?: Record<string, Schema>;
  required?: string[];
  items?: Schema;
  minItems?: number;
}

interface Parameter {
  readonly name: string;
  readonly in: string;
  readonly required?: boolean;
  readonly schema?: Schema;
}

/** As the table of permissions says it. */
export interface Permission {
  readonly who: readonly string[] | 'anyone';
  readonly inPerson?: boolean;
  readonly health?: boolean;
}

interface OperationObject {
  operationId: string;
  'x-permission': Permission;
  security?: object[];
  parameters?: Parameter[];
  requestBody?: { content: Record<string, { schema: Schema }> };
  responses: Record<string, { content?: Record<string, unknown> }>;
}

export interface Operation {
  readonly id: string;
  readonly method: string;
  readonly path: string;
  readonly secured: boolean;
  readonly permission: Permission;
  readonly pathParameters: readonly string[];
  readonly body: Schema | null;
  /** What a body that is not JSON is written in. */
  readonly mediaType: string | null;
  /** Those that may be left out, too. */
  readonly parameters: readonly Parameter[];
  readonly query: readonly { name: string; schema: Schema }[];
  readonly headers: readonly { name: string; schema: Schema }[];
}

const file = path.join(import.meta.dirname, '../../libs/api-client/openapi.json');
const document = JSON.parse(readFileSync(file, 'utf8')) as {
  paths: Record<string, Record<string, OperationObject>>;
  components: { schemas: Record<string, Schema> };
};

/** Every operation of the committed OpenAPI document. */
export const operations: readonly Operation[] = Object.entries(document.paths).flatMap(([route, item]) =>
  Object.entries(item).map(([method, operation]) => ({
    id: operation.operationId,
    method: method.toUpperCase(),
    path: route,
    secured: (operation.security ?? []).length > 0,
    permission: operation['x-permission'],
    pathParameters: (operation.parameters ?? []).filter((p) => p.in === 'path').map((p) => p.name),
    body: operation.requestBody?.content['application/json']?.schema ?? null,
    mediaType:
      Object.keys(operation.requestBody?.content ?? {}).find((type) => type !== 'application/json') ?? null,
    parameters: operation.parameters ?? [],
    query: requiredIn('query', operation),
    headers: requiredIn('header', operation),
  })),
);

/** Addresses that answer with a table for spreadsheets. */
export const csvOperations: readonly string[] = Object.entries(document.paths)
  .filter(([, { get }]) => get?.responses['200']?.content?.['text/csv'] !== undefined)
  .map(([route]) => route);

function requiredIn(
  place: 'query' | 'header',
  { parameters = [] }: OperationObject,
): { name: string; schema: Schema }[] {
  return parameters
    .filter((parameter) => parameter.in === place && parameter.required === true)
    .map(({ name, schema = {} }) => ({ name, schema }));
}

/** The schema that a reference leads to, or the one form of several that is taken. */
export function plain(schema: Schema): Schema {
  const name = schema.$ref?.split('/').at(-1);
  if (name !== undefined) {
    const referred = document.components.schemas[name];
    if (!referred) throw new Error(`the document has no ${name}`);
    return plain(referred);
  }
  const form = schema.allOf?.[0] ?? schema.oneOf?.[0] ?? schema.anyOf?.[0];
  return form ? plain(form) : schema;
}

/**
 * A valid value of a schema: its example, or the least it allows; ids by the name of their field.
 *
 * @param full with what may be left out
 */
export function sampleOf(
  given: Schema,
  ids: Readonly<Record<string, string>>,
  name = '',
  full = false,
): unknown {
  const schema = plain(given);
  if (schema.format === 'uuid') return ids[name] ?? '0199d000-0000-7000-8000-00000000ffff';
  if (schema.example !== undefined) return schema.example;
  if (schema.const !== undefined) return schema.const;
  if (schema.enum) return schema.enum[0];
  const type = Array.isArray(schema.type) ? schema.type[0] : schema.type;
  switch (type) {
    case 'object':
      return Object.fromEntries(
        (full ? Object.keys(schema.properties ?? {}) : (schema.required ?? [])).map((key) => [
          key,
          sampleOf(schema.properties?.[key] ?? {}, ids, key, full),
        ]),
      );
    case 'array':
      return Array.from({ length: Math.max(schema.minItems ?? 0, full ? 1 : 0) }, () =>
        sampleOf(schema.items ?? {}, ids, '', full),
      );
    case 'integer':
    case 'number':
      return schema.minimum ?? 0;
    case 'boolean':
      return false;
    default:
      return 'sample';
  }
}

/** Call an operation with valid values, its ids taken from `ids`. */
export async function call(
  baseUrl: string,
  operation: Operation,
  options: {
    ids: Readonly<Record<string, string>>;
    token?: string;
    /** In place of the sample. */
    body?: unknown;
    headers?: Readonly<Record<string, string>>;
  },
): Promise<{ status: number; problem: { code?: string }; text: string }> {
  const { ids, token, body = operation.body && sampleOf(operation.body, ids), headers = {} } = options;
  const route = operation.path.replaceAll(/\{(\w+)\}/g, (_, name: string) => ids[name] ?? name);
  const query = new URLSearchParams(
    operation.query.map(
      ({ name, schema }) => [name, String(sampleOf(schema, ids, name))] satisfies [string, string],
    ),
  );
  const response = await fetch(`${baseUrl}${route}?${query.toString()}`, {
    method: operation.method,
    headers: {
      ...Object.fromEntries(
        operation.headers.map(({ name, schema }) => [name, String(sampleOf(schema, ids))]),
      ),
      ...(token !== undefined && { authorization: `Bearer ${token}` }),
      ...(body !== null && { 'content-type': 'application/json' }),
      ...headers,
    },
    ...(body !== null && { body: JSON.stringify(body) }),
  });
  const isJson = /[/+]json\b/.test(response.headers.get('content-type') ?? '');
  const text = await response.text();
  return { status: response.status, problem: isJson ? (JSON.parse(text) as { code?: string }) : {}, text };
}

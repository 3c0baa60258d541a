import fc from 'fast-check';
import { plain, sampleOf, type Operation, type Schema } from '../helpers/openapi.js';
import {
  deep,
  deepText,
  edgesOf,
  hostileBodies,
  hostileHeaderValues,
  hostileInAddress,
  hostileMediaTypes,
  hostileValues,
  percent,
} from './hostile.js';
import type { HostileRequest } from './send.js';

/** A request that is right so far, and is made wrong in a place or two. */
interface Draft {
  /** Here and in the query as it stands in an address. */
  readonly path: Readonly<Record<string, string>>;
  readonly query: readonly (readonly [name: string, value: string])[];
  readonly headers: readonly (readonly [name: string, value: string])[];
  /** Undefined where none is sent. */
  readonly body: unknown;
  /** In place of the body. */
  readonly bodyText?: string;
}

type Twist = (draft: Draft) => Draft;

type Step = string | number;

/** A value in a body, and what the document says of it. */
interface Place {
  readonly steps: readonly Step[];
  readonly schema: Schema;
}

const idempotencyKey = ['idempotency-key', 'fuzz-once'] as const;

/** Requests to an operation, each right but for one place, or a few. */
export function requestsTo(
  operation: Operation,
  { ids, tokens }: { ids: Readonly<Record<string, string>>; tokens: readonly string[] },
): fc.Arbitrary<HostileRequest> {
  const lean = draftOf(operation, ids, false);
  const full = draftOf(operation, ids, true);
  const twists = fc.oneof(
    { weight: 1, arbitrary: fc.array(twistOf(operation, lean), { minLength: 1, maxLength: 2 }) },
    { weight: 2, arbitrary: fc.array(twistOf(operation, full), { minLength: 1, maxLength: 3 }) },
  );
  const token = fc.oneof(
    { weight: 12, arbitrary: fc.constantFrom(...tokens) },
    { weight: 1, arbitrary: fc.constantFrom(null, 'a.b.c', 'fsk_x', '') },
  );
  return fc.tuple(fc.constantFrom(lean, full), twists, token).map(([draft, all, bearer]) =>
    written(
      operation,
      all.reduce((so, twist) => twist(so), draft),
      bearer,
    ),
  );
}

function draftOf(operation: Operation, ids: Readonly<Record<string, string>>, full: boolean): Draft {
  const given = operation.parameters.filter(({ required = false }) => full || required);
  const inPlace = (place: string): (readonly [string, string])[] =>
    given
      .filter((parameter) => parameter.in === place)
      .map(({ name, schema = {} }) => [name, String(sampleOf(schema, ids, name))] as const);
  return {
    path: Object.fromEntries(operation.pathParameters.map((name) => [name, percent(ids[name] ?? name)])),
    query: inPlace('query').map(([name, value]) => [name, percent(value)] as const),
    headers: inPlace('header').filter(([name]) => name.toLowerCase() !== idempotencyKey[0]),
    body: operation.body ? sampleOf(operation.body, ids, '', full) : undefined,
    ...(operation.mediaType !== null && { bodyText: '' }),
  };
}

function twistOf(operation: Operation, base: Draft): fc.Arbitrary<Twist> {
  const { pathParameters, parameters, body, mediaType } = operation;
  const places = body ? placesOf(body, base.body) : [];
  const queries = parameters.filter((parameter) => parameter.in === 'query');
  const twists = [
    { weight: 1, arbitrary: headers() },
    { weight: 1, arbitrary: strangeQuery() },
    ...(pathParameters.length > 0 ? [{ weight: 2, arbitrary: inPath(pathParameters) }] : []),
    ...(queries.length > 0 ? [{ weight: 5, arbitrary: inQuery(queries) }] : []),
    ...(places.length > 0 ? [{ weight: 12, arbitrary: inBody(places) }] : []),
    ...(body || mediaType !== null ? [{ weight: 2, arbitrary: wholeBody() }] : []),
    ...(operation.method === 'GET' ? [] : [{ weight: 1, arbitrary: wholeBody() }]),
  ];
  return fc.oneof(...twists);
}

const headers = (): fc.Arbitrary<Twist> =>
  fc
    .tuple(
      fc.constantFrom(
        ...[
          'if-match',
          'idempotency-key',
          'accept',
          'accept-language',
          'content-encoding',
          'x-forwarded-for',
        ],
        ...['if-none-match', 'range', 'origin', 'cookie', 'x-http-method-override', '__proto__'],
      ),
      fc.constantFrom(...hostileHeaderValues),
      fc.boolean(),
    )
    .map(([name, value, twice]): Twist => (draft) => ({
      ...draft,
      headers: [
        ...draft.headers.filter(([known]) => twice || known.toLowerCase() !== name),
        [name, value],
        ...(twice ? ([[name, 'second']] as const) : []),
      ],
    }));

const strangeQuery = (): fc.Arbitrary<Twist> =>
  fc
    .tuple(
      fc.constantFrom('x', '__proto__', 'constructor', 'a[b]', 'a[]', 'limit[$gt]', '', '%00'),
      fc.constantFrom(...hostileInAddress),
    )
    .map((more): Twist => (draft) => ({ ...draft, query: [...draft.query, more] }));

const inPath = (names: readonly string[]): fc.Arbitrary<Twist> =>
  fc
    .tuple(fc.constantFrom(...names), fc.constantFrom(...hostileInAddress))
    .map(([name, value]): Twist => (draft) => ({ ...draft, path: { ...draft.path, [name]: value } }));

const inQuery = (queries: readonly { name: string; schema?: Schema }[]): fc.Arbitrary<Twist> =>
  fc.constantFrom(...queries).chain(({ name, schema = {} }) =>
    fc
      .tuple(
        fc.constantFrom(...hostileInAddress, ...edgesOf(plain(schema)).map((edge) => percent(String(edge)))),
        fc.constantFrom('replaced', 'twice', 'nested'),
      )
      .map(([value, how]): Twist => {
        const key = how === 'nested' ? `${name}[${value.slice(0, 9)}]` : name;
        return (draft) => ({
          ...draft,
          query: [...draft.query.filter(([known]) => how === 'twice' || known !== name), [key, value]],
        });
      }),
  );

const inBody = (places: readonly Place[]): fc.Arbitrary<Twist> =>
  fc.constantFrom(...places).chain(({ steps, schema }) => {
    const edges = edgesOf(schema);
    const value = edges.length > 0 ? fc.oneof(hostileValues, fc.constantFrom(...edges)) : hostileValues;
    return fc
      .tuple(value, fc.constantFrom('replaced', 'replaced', 'replaced', 'left out', 'one more'))
      .map(([put, how]): Twist => {
        const at = how === 'one more' ? [...steps, '__proto__'] : steps;
        return (draft) => ({ ...draft, body: changed(draft.body, at, how === 'left out' ? undefined : put) });
      });
  });

const wholeBody = (): fc.Arbitrary<Twist> =>
  fc.oneof(
    hostileValues.map((body): Twist => (draft) => ({ ...draft, body })),
    fc.constantFrom(...hostileBodies).map((bodyText): Twist => (draft) => ({ ...draft, bodyText })),
    fc.constantFrom(...hostileMediaTypes).map((type): Twist => (draft) => ({
      ...draft,
      headers: [...draft.headers, ['content-type', type]],
    })),
  );

/** Every value in a body, from the outside inwards, itself left out. */
function placesOf(given: Schema, value: unknown, steps: readonly Step[] = []): Place[] {
  const schema = plain(given);
  const own = steps.length === 0 ? [] : [{ steps, schema }];
  if (Array.isArray(value)) {
    return [...own, ...value.flatMap((item, at) => placesOf(schema.items ?? {}, item, [...steps, at]))];
  }
  if (typeof value !== 'object' || value === null) return own;
  return [
    ...own,
    ...Object.entries(value).flatMap(([key, inner]) =>
      placesOf(schema.properties?.[key] ?? {}, inner, [...steps, key]),
    ),
  ];
}

/** A copy with one value put in or, undefined, left out. What is no object any more stays as it is. */
function changed(value: unknown, [step, ...rest]: readonly Step[], put: unknown): unknown {
  if (step === undefined) return put;
  if (typeof value !== 'object' || value === null) return value;
  const copy: unknown = Array.isArray(value) ? [...(value as unknown[])] : { ...value };
  const inner = Object.getOwnPropertyDescriptor(value, step)?.value as unknown;
  // Not by assignment, which `__proto__` would swallow.
  Object.defineProperty(copy, step, {
    ...{ value: changed(inner, rest, put), enumerable: true, configurable: true, writable: true },
  });
  return copy;
}

function written(operation: Operation, draft: Draft, bearer: string | null): HostileRequest {
  const { path, query } = draft;
  const route = operation.path.replaceAll(/\{(\w+)\}/g, (_, name: string) => path[name] ?? name);
  const search = query.map(([name, value]) => `${name}=${value}`).join('&');
  const body =
    draft.bodyText ??
    (draft.body === undefined ? null : JSON.stringify(draft.body).replace(JSON.stringify(deep), deepText));
  const mediaType = operation.mediaType ?? 'application/json';
  const ownType = draft.headers.some(([name]) => name === 'content-type');
  return {
    method: operation.method,
    target: search === '' ? route : `${route}?${search}`,
    headers: [
      ...(body === null || ownType ? [] : [['content-type', mediaType] as const]),
      ...(bearer === null ? [] : [['authorization', `Bearer ${bearer}`] as const]),
      ...draft.headers,
    ],
    body,
  };
}

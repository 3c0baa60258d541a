import { applyDecorators, HttpCode, SetMetadata, type Type } from '@nestjs/common';
import {
  ApiBearerAuth,
  ApiExtension,
  ApiExtraModels,
  ApiHeader,
  ApiOperation,
  ApiResponse,
  getSchemaPath,
} from '@nestjs/swagger';
import { permissionOf, type OperationId } from '../permissions/permission-table.js';
import {
  InvalidRequest,
  NotAllowed,
  NotFound,
  NotSignedIn,
  PreconditionRequired,
  Problem,
  StaleVersion,
  UnknownReference,
} from './problem.js';
import { problemOf } from './problem.filter.js';

const meanings: Readonly<Record<number, string>> = {
  400: 'A field is missing, malformed or unknown; `errors` names it.',
  401: 'No sign-in, or it has run out.',
  403: 'The role may not do this.',
  404: 'No such record in this studio.',
  409: 'The state of the record does not allow it.',
  410: 'The link was used, revoked or has run out.',
  412: 'The record was changed in the meantime.',
  413: 'The body is too large.',
  415: 'The body is not of a kind that is read here.',
  422: 'Well formed but impossible; `errors` names the input.',
  503: 'Not at this moment; try again.',
  428: 'The If-Match header is missing.',
  429: 'Too many tries; `Retry-After` says how long to wait.',
};

const requestId = '0199d0c2-7c4e-7e57-8f4f-3f1f7a0c9b11';

/** As they are really answered; what a feature answers with differs by its code and title. */
const examples: Readonly<Record<number, Problem>> = Object.fromEntries(
  [
    new InvalidRequest([{ field: 'bornOn', message: 'must be a date like 1984-02-29' }]),
    new NotSignedIn(),
    new NotAllowed(),
    new NotFound(),
    new StaleVersion(),
    new UnknownReference('clientId'),
    new PreconditionRequired(),
    { status: 410, code: 'calendar-feeds.gone', title: 'This calendar was stopped' },
    { status: 413, code: 'request.too-large', title: 'The body is too large' },
    { status: 415, code: 'request.media-type', title: 'The body must be JSON' },
    { status: 429, code: 'sign-ins.held-off', title: 'Too many tries; wait before the next' },
    { status: 503, code: 'messages.still-being-sent', title: 'The message is being sent this moment' },
  ].map((error) => [error.status, error instanceof Error ? problemOf(error, requestId) : example(error)]),
);

function example(known: Pick<Problem, 'status' | 'code' | 'title'>): Problem {
  return { type: `urn:fitting-studio:problem:${known.code}`, ...known, requestId };
}

/** Name the problem documents a route answers with. */
export const Problems = (...statuses: number[]): MethodDecorator & ClassDecorator =>
  applyDecorators(
    ApiExtraModels(Problem),
    ...statuses.map((status) =>
      ApiResponse({
        status,
        description: meanings[status] ?? 'Problem',
        content: {
          'application/problem+json': {
            schema: { $ref: getSchemaPath(Problem) },
            ...(examples[status] && { example: examples[status] }),
          },
        },
      }),
    ),
  );

export const operationKey = 'operation';
export const answerKey = 'answer';

/** Names a route's row in the table of permissions, which says who may use it; `Describe` does it for what it describes. */
export function Operation(id: OperationId): MethodDecorator & ClassDecorator {
  const permission = permissionOf(id);
  const signedIn = permission.who === 'anyone' ? [] : [ApiBearerAuth(), Problems(401, 403)];
  return applyDecorators(
    SetMetadata(operationKey, id),
    ApiExtension('x-permission', permission),
    ...signedIn,
  );
}

/** Describe a route: one summary line, its success, and what can go wrong beyond access. */
export function Describe(options: {
  id: OperationId;
  summary: string;
  description?: string;
  returns?: Type<object> | [Type<object>];
  status?: 200 | 201 | 204;
  problems?: readonly number[];
  /** The answer is one version of a record and carries it as its ETag. */
  versioned?: boolean;
  /** A change: the caller says in If-Match which version it was made from. */
  ifMatch?: boolean;
  /** A create that a caller may safely repeat with the same Idempotency-Key. */
  once?: boolean;
}): MethodDecorator {
  const { id, summary, description, returns, status = returns ? 200 : 204, problems = [] } = options;
  const { ifMatch = false, versioned = ifMatch, once = false } = options;
  const all = [...problems, ...(ifMatch ? [412, 428] : []), ...(once ? [422] : [])];
  return applyDecorators(
    HttpCode(status),
    Operation(id),
    SetMetadata(answerKey, Array.isArray(returns) ? returns[0] : returns),
    ApiOperation({ operationId: id, summary, ...(description !== undefined && { description }) }),
    ApiResponse({
      status,
      description: 'Done.',
      ...(returns && { type: returns }),
      ...(versioned && { headers: { ETag: { description: 'Its version.', schema: { type: 'string' } } } }),
    }),
    ...(ifMatch ? [ApiHeader({ name: 'If-Match', required: true, schema: ifMatchSchema })] : []),
    ...(once ? [ApiHeader({ name: 'Idempotency-Key', required: false, schema: onceSchema })] : []),
    Problems(...[...new Set(all)].sort()),
  );
}

const ifMatchSchema = {
  type: 'string' as const,
  description: 'The ETag of the version the change was made from.',
  example: '"1"',
};
const onceSchema = {
  type: 'string' as const,
  maxLength: 202,
  description:
    'The same key with the same request, within 24 hours, gets the first answer again and does nothing anew. ' +
    'Then the key is forgotten, and the same request creates once more.',
  example: '0199d0c2-7c4e-7e57-8f4f-3f1f7a0c9b11',
};

/** Describe a route that answers with a file instead of JSON. */
export function DescribeFile(options: {
  id: OperationId;
  summary: string;
  description?: string;
  type: string;
  problems?: number[];
}): MethodDecorator {
  const { id, summary, description, type, problems = [] } = options;
  const schema = { type: 'string', format: 'binary' };
  return applyDecorators(
    Operation(id),
    ApiOperation({ operationId: id, summary, ...(description !== undefined && { description }) }),
    ApiResponse({ status: 200, description: 'Done.', content: { [type]: { schema } } }),
    Problems(...problems),
  );
}

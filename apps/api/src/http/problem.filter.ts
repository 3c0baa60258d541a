import { Catch, HttpException, type ArgumentsHost, type ExceptionFilter } from '@nestjs/common';
import { FitMathError } from '@studio/fit-math';
import { OnceKeyReused, postgresFailure, sqlState, StudioKeyDestroyed, tookTooLong } from '@studio/database';
import type { FastifyReply, FastifyRequest } from 'fastify';
import {
  ApiError,
  ImpossibleGeometry,
  KeyUsedForAnother,
  StudioErased,
  TookTooLong,
  UnknownReference,
  type Problem,
} from './problem.js';

/** The one place where an error becomes an answer. */
@Catch()
export class ProblemFilter implements ExceptionFilter {
  catch(error: unknown, host: ArgumentsHost): void {
    const request = host.switchToHttp().getRequest<FastifyRequest>();
    const reply = host.switchToHttp().getResponse<FastifyReply>();
    const known = knownError(error);
    const problem = problemOf(error, request.id);
    // A surprise is logged by its kind; messages of databases and libraries can carry personal data.
    if (problem.status >= 500) request.log.error({ failure: describeFailure(error) }, 'request failed');
    if (known) void reply.headers(known.headers);
    void reply.status(problem.status).header('content-type', 'application/problem+json').send(problem);
  }
}

export function problemOf(error: unknown, requestId: string): Problem {
  const known = knownError(error);
  if (known) {
    return {
      type: typeOf(known.code),
      title: known.title,
      status: known.status,
      code: known.code,
      ...(known.detail !== undefined && { detail: known.detail }),
      ...known.extra,
      requestId,
    };
  }
  const status = statusOf(error);
  const [code, title] = plainProblems[status] ?? ['internal', 'Something failed on our side'];
  return { type: typeOf(code), title, status: plainProblems[status] ? status : 500, code, requestId };
}

function knownError(error: unknown): ApiError | undefined {
  if (error instanceof ApiError) return error;
  if (error instanceof FitMathError) return new ImpossibleGeometry(error);
  if (error instanceof StudioKeyDestroyed) return new StudioErased();
  if (tookTooLong(error)) return new TookTooLong();
  return error instanceof OnceKeyReused ? new KeyUsedForAnother() : referenceError(error);
}

/** What Nest and Fastify refuse before a feature sees it. */
const plainProblems: Readonly<Record<number, readonly [code: string, title: string]>> = {
  400: ['request.malformed', 'The request cannot be read'],
  404: ['route.unknown', 'There is no such address'],
  413: ['request.too-large', 'The body is too large'],
  414: ['request.address-too-long', 'The address is too long'],
  415: ['request.media-type', 'The body must be JSON'],
  431: ['request.headers-too-large', 'The headers are too large'],
};

const typeOf = (code: string): string => `urn:fitting-studio:problem:${code}`;

function statusOf(error: unknown): number {
  if (error instanceof HttpException) return error.getStatus();
  const { statusCode } = (error ?? {}) as { statusCode?: unknown };
  return typeof statusCode === 'number' ? statusCode : 500;
}

/** `appointments_client_id_fkey` speaks of the field `clientId`. */
function referenceError(error: unknown): ApiError | undefined {
  const failure = postgresFailure(error);
  if (failure?.code !== sqlState.foreignKeyViolation || failure.constraint === undefined) return undefined;
  const column = /_(?<column>[a-z0-9]+_(?:id|by))_fkey$/.exec(failure.constraint)?.groups?.['column'];
  if (column === undefined) return undefined;
  return new UnknownReference(column.replace(/_([a-z])/g, (_, letter: string) => letter.toUpperCase()));
}

export function describeFailure(error: unknown): object {
  const failure = postgresFailure(error);
  if (failure) return failure;
  return error instanceof Error ? { name: error.name, stack: error.stack } : { name: typeof error };
}

import {
  createParamDecorator,
  type CallHandler,
  type ExecutionContext,
  type NestInterceptor,
} from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { map, type Observable } from 'rxjs';
import { PreconditionRequired, StaleVersion } from './problem.js';

/**
 * The version a change was made from, out of the If-Match header (RFC 9110, 13.1.1). A tag that is not one of ours
 * matches nothing, and so does a weak one, since If-Match compares strongly.
 *
 * @throws PreconditionRequired without the header, or for `*`: a change made from no version at all
 */
export const IfMatch = createParamDecorator((_: unknown, host: ExecutionContext): number => {
  const header = host.switchToHttp().getRequest<FastifyRequest>().headers['if-match']?.trim();
  if (header === undefined || header === '' || header === '*') throw new PreconditionRequired();
  const version = /^"(?<version>[1-9]\d{0,8})"$/.exec(header)?.groups?.['version'];
  if (version === undefined) throw new StaleVersion();
  return Number(version);
});

/** An answer that is one record in one version carries it as its ETag. */
export class ETagInterceptor implements NestInterceptor {
  intercept(host: ExecutionContext, next: CallHandler): Observable<unknown> {
    const reply = host.switchToHttp().getResponse<FastifyReply>();
    return next.handle().pipe(
      map((body: unknown) => {
        const version = (body as { version?: unknown } | null | undefined)?.version;
        if (Number.isInteger(version)) void reply.header('etag', `"${String(version)}"`);
        return body;
      }),
    );
  }
}

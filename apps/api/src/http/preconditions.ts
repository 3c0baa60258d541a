import { createParamDecorator, type ExecutionContext } from '@nestjs/common';
import type { FastifyRequest } from 'fastify';
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

/** The ETag of an answer that is one record in one version. */
export function etagOf(answer: unknown): string | undefined {
  const version = (answer as { version?: unknown } | null | undefined)?.version;
  return Number.isInteger(version) ? `"${String(version)}"` : undefined;
}

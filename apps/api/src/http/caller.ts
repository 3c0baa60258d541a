import { createParamDecorator, type ExecutionContext } from '@nestjs/common';
import type { FastifyRequest } from 'fastify';

/** Where an open request comes from. */
export interface Caller {
  readonly requestId: string;
  readonly address: string;
  readonly userAgent: string | null;
}

export const FromCaller = createParamDecorator((_: unknown, host: ExecutionContext): Caller => {
  const { id, ip, headers } = host.switchToHttp().getRequest<FastifyRequest>();
  return { requestId: id, address: ip, userAgent: headers['user-agent']?.slice(0, 300) ?? null };
});

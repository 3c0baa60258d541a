import { createParamDecorator, type ExecutionContext } from '@nestjs/common';
import type { TenantContext } from '@studio/database';
import type { FastifyRequest } from 'fastify';

const contexts = new WeakMap<FastifyRequest, TenantContext>();

export function setContext(request: FastifyRequest, ctx: TenantContext): void {
  contexts.set(request, ctx);
}

export const contextOf = (request: FastifyRequest): TenantContext | undefined => contexts.get(request);

/** The signed-in person's context; the guard has set it before any handler runs. */
export const Ctx = createParamDecorator((_: unknown, host: ExecutionContext): TenantContext => {
  const ctx = contexts.get(host.switchToHttp().getRequest<FastifyRequest>());
  if (!ctx) throw new Error('this route is open: it has no signed-in person');
  return ctx;
});

/** The request's id, for open routes that make their own context. */
export const RequestId = createParamDecorator(
  (_: unknown, host: ExecutionContext): string => host.switchToHttp().getRequest<FastifyRequest>().id,
);

import { createParamDecorator, type ExecutionContext } from '@nestjs/common';
import type { TenantContext } from '@studio/database';
import type { FastifyRequest } from 'fastify';
import type { Grant } from '../permissions/permission.js';

const contexts = new WeakMap<FastifyRequest, TenantContext>();
const grants = new WeakMap<FastifyRequest, readonly Grant[]>();

export function setContext(request: FastifyRequest, ctx: TenantContext, granted: readonly Grant[]): void {
  contexts.set(request, ctx);
  grants.set(request, granted);
}

export const contextOf = (request: FastifyRequest): TenantContext | undefined => contexts.get(request);

/** What the signed-in person was granted; nothing on an open route. */
export const grantsOfRequest = (request: FastifyRequest): readonly Grant[] => grants.get(request) ?? [];

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

import { createParamDecorator, type ExecutionContext } from '@nestjs/common';
import type { TenantContext } from '@studio/database';
import type { FastifyRequest } from 'fastify';
import type { Grant } from '../permissions/permission.js';
import type { Route } from './routes.js';

/** Who asks for what. */
export interface Asked {
  readonly route: Route;
  /** The signed-in person's; none on an open route. */
  readonly ctx: TenantContext | null;
  readonly grants: readonly Grant[];
  /** Whether it is a restricted record that its reader opened. */
  readonly opened?: boolean;
}

const asked = new WeakMap<FastifyRequest, Asked>();

export function setAsked(request: FastifyRequest, what: Asked): void {
  asked.set(request, what);
}

/** Nothing of what no route of ours is for, or was not let in. */
export const askedOf = (request: FastifyRequest): Asked | undefined => asked.get(request);

/** The signed-in person's context; the guard has set it before any handler runs. */
export const Ctx = createParamDecorator((_: unknown, host: ExecutionContext): TenantContext => {
  const ctx = askedOf(host.switchToHttp().getRequest<FastifyRequest>())?.ctx;
  if (!ctx) throw new Error('this route is open: it has no signed-in person');
  return ctx;
});

/** The request's id, for open routes that make their own context. */
export const RequestId = createParamDecorator(
  (_: unknown, host: ExecutionContext): string => host.switchToHttp().getRequest<FastifyRequest>().id,
);

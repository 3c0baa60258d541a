import { Injectable, type CanActivate, type ExecutionContext } from '@nestjs/common';
import { Reflector } from '@nestjs/core';
import type { FastifyRequest } from 'fastify';
import { grantsOf, refusal } from '../permissions/permission.js';
import { AccessTokens, type Bearer } from './access-tokens.js';
import { apiKeyPrefix, ApiKeys } from './api-keys.js';
import { onceKeyOf } from './once.js';
import { InPersonOnly, NotAllowed, NotSignedIn } from './problem.js';
import { setAsked } from './request-context.js';
import { routeOf } from './routes.js';

/** Asks the table of permissions. */
@Injectable()
export class AccessGuard implements CanActivate {
  constructor(
    private readonly reflector: Reflector,
    private readonly tokens: AccessTokens,
    private readonly keys: ApiKeys,
  ) {}

  async canActivate(host: ExecutionContext): Promise<boolean> {
    const route = routeOf(this.reflector, host);
    const { permission } = route;
    const request = host.switchToHttp().getRequest<FastifyRequest>();
    if (permission.who === 'anyone') {
      setAsked(request, { route, ctx: null, grants: [] });
      return true;
    }
    const token = /^Bearer (?<token>\S+)$/.exec(request.headers.authorization ?? '')?.groups?.['token'];
    const bearer = token === undefined ? null : await this.bearerOf(token);
    if (!bearer) throw new NotSignedIn();
    const refused = refusal(permission, bearer, request.method);
    if (refused === 'program') throw new InPersonOnly();
    if (refused !== null) throw new NotAllowed();
    const once = onceKeyOf(request);
    const { studioId, userId, roles, signInId } = bearer;
    const ctx = {
      studioId,
      userId,
      roles,
      requestId: request.id,
      fromAddress: request.ip,
      ...(signInId !== undefined && { signInId }),
      ...(once && { once }),
    };
    setAsked(request, { route, ctx, grants: grantsOf(bearer) });
    return true;
  }

  private async bearerOf(token: string): Promise<Bearer | null> {
    return token.startsWith(apiKeyPrefix) ? this.keys.verify(token) : this.tokens.verify(token);
  }
}

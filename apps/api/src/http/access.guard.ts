import { Injectable, type CanActivate, type ExecutionContext } from '@nestjs/common';
import { Reflector } from '@nestjs/core';
import type { FastifyRequest } from 'fastify';
import { AccessTokens } from './access-tokens.js';
import { accessKey, type Access } from './access.js';
import { onceKeyOf } from './once.js';
import { NotAllowed, NotSignedIn } from './problem.js';
import { setContext } from './request-context.js';

@Injectable()
export class AccessGuard implements CanActivate {
  constructor(
    private readonly reflector: Reflector,
    private readonly tokens: AccessTokens,
  ) {}

  async canActivate(host: ExecutionContext): Promise<boolean> {
    const access = this.reflector.getAllAndOverride<Access | undefined>(accessKey, [
      host.getHandler(),
      host.getClass(),
    ]);
    if (access === 'anyone') return true;

    const request = host.switchToHttp().getRequest<FastifyRequest>();
    const token = /^Bearer (?<token>\S+)$/.exec(request.headers.authorization ?? '')?.groups?.['token'];
    const bearer = token === undefined ? null : await this.tokens.verify(token);
    if (!bearer) throw new NotSignedIn();
    if (!access?.some((role) => bearer.roles.includes(role))) throw new NotAllowed();
    const once = onceKeyOf(request);
    setContext(request, { ...bearer, requestId: request.id, ...(once && { once }) });
    return true;
  }
}

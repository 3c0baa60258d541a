import { Injectable, type CanActivate, type ExecutionContext } from '@nestjs/common';
import { Reflector } from '@nestjs/core';
import type { FastifyRequest } from 'fastify';
import { AccessTokens, type Bearer } from './access-tokens.js';
import { apiKeyPrefix, ApiKeys } from './api-keys.js';
import { accessKey, inPersonKey, type Access } from './access.js';
import { onceKeyOf } from './once.js';
import { InPersonOnly, NotAllowed, NotSignedIn } from './problem.js';
import { setContext } from './request-context.js';

@Injectable()
export class AccessGuard implements CanActivate {
  constructor(
    private readonly reflector: Reflector,
    private readonly tokens: AccessTokens,
    private readonly keys: ApiKeys,
  ) {}

  async canActivate(host: ExecutionContext): Promise<boolean> {
    const access = this.reflector.getAllAndOverride<Access | undefined>(accessKey, [
      host.getHandler(),
      host.getClass(),
    ]);
    if (access === 'anyone') return true;

    const request = host.switchToHttp().getRequest<FastifyRequest>();
    const token = /^Bearer (?<token>\S+)$/.exec(request.headers.authorization ?? '')?.groups?.['token'];
    const bearer = token === undefined ? null : await this.bearerOf(token);
    if (!bearer) throw new NotSignedIn();
    if (!access?.some((role) => bearer.roles.includes(role))) throw new NotAllowed();
    if (bearer.program) this.requireForPrograms(host, request, bearer.program);
    const once = onceKeyOf(request);
    const { studioId, userId, roles, signInId } = bearer;
    setContext(request, {
      studioId,
      userId,
      roles,
      requestId: request.id,
      fromAddress: request.ip,
      ...(signInId !== undefined && { signInId }),
      ...(once && { once }),
    });
    return true;
  }

  private async bearerOf(token: string): Promise<Bearer | null> {
    return token.startsWith(apiKeyPrefix) ? this.keys.verify(token) : this.tokens.verify(token);
  }

  private requireForPrograms(
    host: ExecutionContext,
    { method }: FastifyRequest,
    { readOnly }: { readOnly: boolean },
  ): void {
    const inPerson = this.reflector.getAllAndOverride<boolean | undefined>(inPersonKey, [
      host.getHandler(),
      host.getClass(),
    ]);
    if (inPerson === true) throw new InPersonOnly();
    if (readOnly && method !== 'GET' && method !== 'HEAD') throw new NotAllowed();
  }
}

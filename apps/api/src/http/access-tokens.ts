import { Injectable } from '@nestjs/common';
import type { Role } from '@studio/database';
import { jwtVerify, SignJWT } from 'jose';

export const accessTokenSeconds = 600;

/** What a signed access token says of its bearer. */
export interface Bearer {
  readonly studioId: string;
  readonly userId: string;
  readonly roles: readonly Role[];
}

const remembered = 5_000;

/** Short-lived signed tokens (RFC 7519, HS256). */
@Injectable()
export class AccessTokens {
  private readonly key: Uint8Array;
  /** Tokens verified before, until they run out; saves the signature check on the hot path. */
  private readonly verified = new Map<string, { bearer: Bearer; expiresAt: number }>();

  constructor(secret: string) {
    this.key = new TextEncoder().encode(secret);
  }

  async issue(bearer: Bearer): Promise<string> {
    return new SignJWT({ studio: bearer.studioId, roles: bearer.roles })
      .setProtectedHeader({ alg: 'HS256' })
      .setSubject(bearer.userId)
      .setIssuedAt()
      .setExpirationTime(`${accessTokenSeconds}s`)
      .sign(this.key);
  }

  /** The bearer, or null for a token that is not ours or has run out. */
  async verify(token: string): Promise<Bearer | null> {
    const known = this.verified.get(token);
    if (known && known.expiresAt > Date.now()) return known.bearer;
    this.verified.delete(token);
    try {
      const { payload } = await jwtVerify(token, this.key, {
        algorithms: ['HS256'],
        requiredClaims: ['sub', 'exp', 'studio', 'roles'],
      });
      const bearer: Bearer = {
        studioId: payload['studio'] as string,
        userId: payload.sub as string,
        roles: payload['roles'] as Role[],
      };
      this.remember(token, bearer, (payload.exp as number) * 1000);
      return bearer;
    } catch {
      return null;
    }
  }

  private remember(token: string, bearer: Bearer, expiresAt: number): void {
    const oldest = this.verified.keys().next();
    if (this.verified.size >= remembered && !oldest.done) this.verified.delete(oldest.value);
    this.verified.set(token, { bearer, expiresAt });
  }
}

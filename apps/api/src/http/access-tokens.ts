import { Injectable } from '@nestjs/common';
import type { Role } from '@studio/database';
import { jwtVerify, SignJWT } from 'jose';

export const accessTokenSeconds = 600;

/** What a signed access token says of its bearer. */
export interface Bearer {
  readonly studioId: string;
  readonly userId: string;
  readonly roles: readonly Role[];
  /** A licensed clinician by an owner's word. */
  readonly clinician?: boolean;
  /** The sign-in the token belongs to. */
  readonly signInId?: string;
  /** There when it is a program with a key of the person. */
  readonly program?: { readonly readOnly: boolean };
}

/** Tokens for the API, and those a half-made sign-in goes on with. */
type Audience = 'api' | 'second-factor';

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

  async issue(bearer: Bearer, audience: Audience = 'api'): Promise<string> {
    const { studioId, userId, roles, clinician = false, signInId } = bearer;
    return new SignJWT({
      ...{ studio: studioId, roles },
      ...(clinician && { clinician }),
      ...(signInId !== undefined && { sign_in: signInId }),
    })
      .setProtectedHeader({ alg: 'HS256' })
      .setSubject(userId)
      .setAudience(audience)
      .setIssuedAt()
      .setExpirationTime(`${accessTokenSeconds}s`)
      .sign(this.key);
  }

  /** The bearer, or null for a token that is not ours or has run out. */
  async verify(token: string, audience: Audience = 'api'): Promise<Bearer | null> {
    const name = `${audience} ${token}`;
    const known = this.verified.get(name);
    if (known && known.expiresAt > Date.now()) return known.bearer;
    this.verified.delete(name);
    try {
      const { payload } = await jwtVerify(token, this.key, {
        algorithms: ['HS256'],
        audience,
        requiredClaims: ['sub', 'exp', 'studio', 'roles'],
      });
      const bearer: Bearer = {
        studioId: payload['studio'] as string,
        userId: payload.sub as string,
        roles: payload['roles'] as Role[],
        clinician: payload['clinician'] === true,
        ...(typeof payload['sign_in'] === 'string' && { signInId: payload['sign_in'] }),
      };
      this.remember(name, bearer, (payload.exp as number) * 1000);
      return bearer;
    } catch {
      return null;
    }
  }

  private remember(name: string, bearer: Bearer, expiresAt: number): void {
    const oldest = this.verified.keys().next();
    if (this.verified.size >= remembered && !oldest.done) this.verified.delete(oldest.value);
    this.verified.set(name, { bearer, expiresAt });
  }
}

import createClient, { type Client } from 'openapi-fetch';
import { dataOf } from './problem-error.js';
import type { components, paths } from './schema.js';

/** Every route of the API, typed by its OpenAPI document: `studio.GET('/v1/clients', …)`. */
export type StudioClient = Client<paths>;

export type SignIn = components['schemas']['SignInResponse'];

/** Renew this long before the access token runs out. */
const renewBeforeMs = 30_000;

/** A client without a sign-in: for signing in, and for follow-up links. */
export function openClient(baseUrl: string): StudioClient {
  return createClient<paths>({ baseUrl });
}

/**
 * Sign in, and get a client that sends the access token and renews it in time.
 *
 * @throws ProblemError `sign-ins.refused`
 * @example const studio = await signIn('http://127.0.0.1:3000', { studio: 'harbour-lane', email, password });
 */
export async function signIn(
  baseUrl: string,
  credentials: components['schemas']['SignInRequest'],
): Promise<StudioClient & { readonly signedIn: SignIn['user'] }> {
  const open = openClient(baseUrl);
  let current = await dataOf(open.POST('/v1/sign-ins', { body: credentials }));
  let renewAt = renewalTime(current);
  let renewal: Promise<void> | undefined;

  const renew = async (): Promise<void> => {
    const { refreshToken } = current;
    current = await dataOf(open.POST('/v1/sign-ins/refresh', { body: { refreshToken } }));
    renewAt = renewalTime(current);
  };

  const client = openClient(baseUrl);
  client.use({
    async onRequest({ request }) {
      if (Date.now() >= renewAt) {
        // Calls made at once share one renewal: a refresh token is good for one.
        renewal ??= renew().finally(() => (renewal = undefined));
        await renewal;
      }
      request.headers.set('authorization', `Bearer ${current.accessToken}`);
      return request;
    },
  });
  return Object.assign(client, { signedIn: current.user });
}

const renewalTime = ({ expiresIn }: SignIn): number => Date.now() + expiresIn * 1000 - renewBeforeMs;

import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf, openClient, signIn, type StudioClient } from '@studio/api-client';
import type { ChildProcess } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import { Secret, TOTP } from 'otpauth';
import pg from 'pg';
import { eventually, mailsTo } from '../helpers/mail.js';
import {
  openStudio,
  openTestStudio,
  startTestApi,
  type TestApi,
  type TestStudio,
} from '../helpers/studio.js';
import { startWorker, stop } from '../helpers/worker.js';

let api: TestApi;
let here: TestStudio;

beforeAll(async () => {
  api = await startTestApi({ TRUSTED_PROXIES: '127.0.0.1' });
  here = await openTestStudio(api);
});
afterAll(() => api.close());

const password = 'a password for tests only';
let people = 0;

/** Somebody new of the studio, so that no test counts the tries of another. */
async function newPerson(roles: ('owner' | 'fitter' | 'front_desk')[] = ['fitter']) {
  people += 1;
  const email = `person${people}@${here.studio.handle}.example`;
  const { id } = await dataOf(
    here.owner.POST('/v1/staff', { body: { email, displayName: 'Person', password, roles } }),
  );
  return { id, credentials: { studio: here.studio.handle, email, password } };
}

/** A try to sign in that seems to come from `address`. */
async function tryFrom(
  address: string,
  body: { studio: string; email: string; password: string; code?: string },
): Promise<{ status: number; retryAfter: string | null }> {
  const { response } = await openClient(api.url).POST('/v1/sign-ins', {
    body,
    headers: { 'x-forwarded-for': address },
  });
  return { status: response.status, retryAfter: response.headers.get('retry-after') };
}

const codeOf = (secret: string, stepsAhead = 0): string =>
  new TOTP({ secret: Secret.fromBase32(secret) }).generate({ timestamp: Date.now() + stepsAhead * 30_000 });

async function withSecondFactor(client: StudioClient) {
  const { secret } = await dataOf(client.POST('/v1/my-account/second-factor', { body: { password } }));
  const { recoveryCodes } = await dataOf(
    client.POST('/v1/my-account/second-factor/confirmation', { body: { code: codeOf(secret, -1) } }),
  );
  return { secret, recoveryCodes };
}

describe('guessing', () => {
  it('has to wait after five failures from an address, and says how long', async () => {
    const { credentials } = await newPerson();
    const wrong = { ...credentials, password: 'not the password at all' };
    for (let i = 0; i < 5; i += 1) expect((await tryFrom('203.0.113.1', wrong)).status).toBe(401);
    const held = await tryFrom('203.0.113.1', credentials);
    expect(held.status).toBe(429);
    expect(Number(held.retryAfter)).toBeGreaterThan(800);
    expect((await tryFrom('203.0.113.2', credentials)).status).toBe(201);
  });

  it('from everywhere at once locks out those who were never there, and not the rightful', async () => {
    const { credentials } = await newPerson();
    expect((await tryFrom('198.51.100.1', credentials)).status).toBe(201);
    const wrong = { ...credentials, password: 'not the password at all' };
    for (const ten of [0, 10, 20]) {
      const guesses = await Promise.all(
        Array.from({ length: 10 }, (_, at) => tryFrom(`192.0.2.${ten + at + 1}`, wrong)),
      );
      expect(guesses.every(({ status }) => status === 401)).toBe(true);
    }
    expect((await tryFrom('192.0.2.200', credentials)).status).toBe(429);
    expect((await tryFrom('198.51.100.1', credentials)).status).toBe(201);
  });

  it('counts guesses made at once', async () => {
    const { credentials } = await newPerson();
    const wrong = { ...credentials, password: 'not the password at all' };
    const statuses = await Promise.all(
      Array.from({ length: 30 }, async () => (await tryFrom('203.0.113.9', wrong)).status),
    );
    expect(statuses.filter((status) => status === 401).length).toBeLessThanOrEqual(5);
  });
});

describe('a password', () => {
  it('is refused when it would be guessed first, and the field is named', async () => {
    const body = {
      email: 'new@x.example',
      displayName: 'New',
      password: 'passwordpassword',
      roles: ['fitter' as const],
    };
    const { error } = await here.owner.POST('/v1/staff', { body });
    expect(error).toMatchObject({ status: 400, errors: [{ field: 'password' }] });
  });

  it('is changed by whoever knows it, and every other sign-in ends', async () => {
    const { credentials } = await newPerson();
    const one = await dataOf(openClient(api.url).POST('/v1/sign-ins', { body: credentials }));
    const two = await signIn(api.url, credentials);
    const newPassword = 'five herons behind the lock';
    const change = (body: { password: string; newPassword: string }) =>
      two.PUT('/v1/my-account/password', { body });
    expect((await change({ password: 'something else entirely', newPassword })).error).toMatchObject({
      code: 'sign-ins.wrong-password',
    });
    expect((await change({ password, newPassword })).response.status).toBe(204);
    const { refreshToken } = one;
    const refreshed = await openClient(api.url).POST('/v1/sign-ins/refresh', { body: { refreshToken } });
    expect(refreshed.response.status).toBe(401);
    const standing = await dataOf(two.GET('/v1/my-account/sign-ins'));
    expect(standing).toMatchObject([{ current: true }]);
    await expect(signIn(api.url, credentials)).rejects.toMatchObject({ code: 'sign-ins.refused' });
    await signIn(api.url, { ...credentials, password: newPassword });
  });
});

describe('a second factor', () => {
  it('is asked for once it is confirmed; a code is taken once, a recovery code too', async () => {
    const { credentials } = await newPerson();
    const { secret, recoveryCodes } = await withSecondFactor(await signIn(api.url, credentials));
    expect(recoveryCodes).toHaveLength(10);
    await expect(signIn(api.url, credentials)).rejects.toMatchObject({
      code: 'sign-ins.second-factor-needed',
    });
    const code = codeOf(secret);
    const both = await Promise.all(
      [1, 2].map((n) => tryFrom(`203.0.113.${20 + n}`, { ...credentials, code })),
    );
    expect(both.map(({ status }) => status).sort()).toEqual([201, 401]);
    const spare = { ...credentials, code: recoveryCodes[0] as string };
    expect((await tryFrom('203.0.113.23', spare)).status).toBe(201);
    expect((await tryFrom('203.0.113.24', spare)).status).toBe(401);
    expect((await tryFrom('203.0.113.25', { ...credentials, code: '000000' })).status).toBe(401);
  });

  it('is removed only with password and code', async () => {
    const { credentials } = await newPerson();
    const client = await signIn(api.url, credentials);
    const { secret } = await withSecondFactor(client);
    const remove = (body: { password: string; code: string }) =>
      client.POST('/v1/my-account/second-factor/removal', { body });
    expect(
      (await remove({ password: 'something else entirely', code: codeOf(secret) })).response.status,
    ).toBe(422);
    expect((await remove({ password, code: '000000' })).response.status).toBe(422);
    expect((await remove({ password, code: codeOf(secret) })).response.status).toBe(204);
    expect(await dataOf(client.GET('/v1/my-account'))).toMatchObject({
      secondFactor: false,
      recoveryCodesLeft: 0,
    });
  });

  it('lies sealed in the database', async () => {
    const { id, credentials } = await newPerson();
    const { secret } = await withSecondFactor(await signIn(api.url, credentials));
    const admin = new pg.Client({ connectionString: api.database.adminUrl });
    await admin.connect();
    const { rows } = await admin.query<{ sealed_secret: Buffer }>(
      'SELECT sealed_secret FROM second_factors WHERE user_id = $1',
      [id],
    );
    await admin.end();
    const raw = Buffer.from(Secret.fromBase32(secret).bytes);
    expect(rows).toHaveLength(1);
    expect(rows[0]?.sealed_secret.includes(raw)).toBe(false);
  });

  it('comes before an owner’s first sign-in', async () => {
    const strict = await startTestApi({ OWNERS_NEED_SECOND_FACTOR: '1' });
    try {
      const owner = { email: 'owner@strict.example', displayName: 'Owner', password };
      const handle = 'strict';
      await openStudio(strict.database.ownerUrl, {
        ...{ studioId: randomUUID(), handle, name: 'Strict', timeZone: 'Europe/Lisbon', owner },
      });
      const open = openClient(strict.url);
      const credentials = { studio: handle, email: owner.email, password };
      const { error } = await open.POST('/v1/sign-ins', { body: credentials });
      expect(error).toMatchObject({ code: 'sign-ins.second-factor-to-set-up' });
      const { setUpToken } = error as unknown as { setUpToken: string };
      const asAccess = await open.GET('/v1/clients', { headers: { authorization: `Bearer ${setUpToken}` } });
      expect(asAccess.response.status).toBe(401);
      const { secret } = await dataOf(open.POST('/v1/sign-ins/second-factor', { body: { setUpToken } }));
      const code = codeOf(secret, -1);
      const wrong = await open.POST('/v1/sign-ins/second-factor/confirmation', {
        body: { setUpToken, code: '000000' },
      });
      expect(wrong.error).toMatchObject({ code: 'sign-ins.wrong-code' });
      const first = await dataOf(
        open.POST('/v1/sign-ins/second-factor/confirmation', { body: { setUpToken, code } }),
      );
      expect(first.signIn.user.roles).toContain('owner');
      await signIn(strict.url, { ...credentials, code: codeOf(secret) });
      // The token for setting up gives no second way in.
      const again = await open.POST('/v1/sign-ins/second-factor', { body: { setUpToken } });
      expect(again.response.status).toBe(409);
    } finally {
      await strict.close();
    }
  });
});

describe('sign-ins', () => {
  it('are listed with where they came from, and ended one by one', async () => {
    const { credentials } = await newPerson();
    const { refreshToken } = await dataOf(
      openClient(api.url).POST('/v1/sign-ins', {
        body: credentials,
        headers: { 'x-forwarded-for': '203.0.113.77', 'user-agent': 'Tablet' },
      }),
    );
    const client = await signIn(api.url, credentials);
    const listed = await dataOf(client.GET('/v1/my-account/sign-ins'));
    const elsewhere = listed.find(({ current }) => !current);
    expect(elsewhere).toMatchObject({ fromAddress: '203.0.113.77', userAgent: 'Tablet' });
    const path = { signInId: elsewhere?.id ?? '' };
    expect(
      (await here.owner.DELETE('/v1/my-account/sign-ins/{signInId}', { params: { path } })).response.status,
    ).toBe(404);
    expect(
      (await client.DELETE('/v1/my-account/sign-ins/{signInId}', { params: { path } })).response.status,
    ).toBe(204);
    const refreshed = await openClient(api.url).POST('/v1/sign-ins/refresh', { body: { refreshToken } });
    expect(refreshed.response.status).toBe(401);
  });

  it('end, and keys with them, when a person may no longer sign in', async () => {
    const { id, credentials } = await newPerson();
    const { refreshToken, accessToken } = await dataOf(
      openClient(api.url).POST('/v1/sign-ins', { body: credentials }),
    );
    const { key } = await dataOf(
      openClient(api.url).POST('/v1/api-keys', {
        body: { name: 'table', roles: ['fitter'], expiresAt: inDays(30) },
        headers: { authorization: `Bearer ${accessToken}` },
      }),
    );
    await here.owner.PATCH('/v1/staff/{staffId}', {
      params: { path: { staffId: id }, header: { 'If-Match': '"1"' } },
      body: { active: false },
    });
    expect(
      (await openClient(api.url).POST('/v1/sign-ins/refresh', { body: { refreshToken } })).response.status,
    ).toBe(401);
    await expect(signIn(api.url, credentials)).rejects.toMatchObject({ code: 'sign-ins.refused' });
    expect((await clientsWith(key)).status).toBe(401);
  });

  it('leave the studio an owner', async () => {
    const { items: staff } = await dataOf(here.owner.GET('/v1/staff'));
    const owners = (Array.isArray(staff) ? staff : (staff as { items: typeof staff }).items).filter(
      ({ roles }) => roles.includes('owner'),
    );
    expect(owners).toHaveLength(1);
    for (const body of [{ active: false }, { roles: ['fitter' as const] }]) {
      const { error } = await here.owner.PATCH('/v1/staff/{staffId}', {
        params: {
          path: { staffId: owners[0]?.id ?? '' },
          header: { 'If-Match': `"${owners[0]?.version ?? 0}"` },
        },
        body,
      });
      expect(error).toMatchObject({ status: 409, code: 'staff.last-owner' });
    }
  });
});

const inDays = (days: number): string => new Date(Date.now() + days * 86_400_000).toISOString();
const clientsWith = (key: string, init: RequestInit = {}): Promise<Response> =>
  fetch(`${api.url}/v1/clients`, {
    ...init,
    headers: { authorization: `Bearer ${key}`, 'content-type': 'application/json' },
  });

describe('a key for a program', () => {
  const make = (body: object) =>
    here.owner.POST('/v1/api-keys', {
      body: { name: 'table', roles: ['fitter'], expiresAt: inDays(30), ...body },
    });

  it('acts as its person with some of the roles', async () => {
    const { key } = await dataOf(make({}));
    expect((await clientsWith(key)).status).toBe(200);
    const review = await fetch(`${api.url}/v1/outcomes/review`, {
      headers: { authorization: `Bearer ${key}` },
    });
    expect(review.status).toBe(403);
    const [listed] = await dataOf(here.owner.GET('/v1/api-keys'));
    expect(listed?.lastUsedAt).not.toBeNull();
    expect(JSON.stringify(listed)).not.toContain(key.slice(-20));
  });

  it('that only reads writes nothing', async () => {
    const { key } = await dataOf(make({ roles: ['front_desk', 'fitter', 'owner'].slice(1), readOnly: true }));
    const body = JSON.stringify({ givenName: 'Ada', familyName: 'Holm' });
    expect((await clientsWith(key, { method: 'POST', body })).status).toBe(403);
    expect((await clientsWith(key)).status).toBe(200);
  });

  it('gives no key, changes no password, adds nobody', async () => {
    const { key } = await dataOf(make({ roles: ['owner'] }));
    const program = openClient(api.url);
    const headers = { authorization: `Bearer ${key}` };
    const body = { name: 'x', roles: ['owner' as const], expiresAt: inDays(1) };
    expect((await program.POST('/v1/api-keys', { body, headers })).error).toMatchObject({
      code: 'access.in-person-only',
    });
    const person = { email: 'x@x.example', displayName: 'X', roles: ['owner' as const] };
    expect((await program.POST('/v1/staff', { body: person, headers })).response.status).toBe(403);
    expect((await program.GET('/v1/my-account', { headers })).response.status).toBe(403);
  });

  it('ends when it is revoked; gives no role one has not; lasts a year at most', async () => {
    const { id, key } = await dataOf(make({}));
    await here.owner.DELETE('/v1/api-keys/{apiKeyId}', { params: { path: { apiKeyId: id } } });
    expect((await clientsWith(key)).status).toBe(401);
    expect((await make({ roles: ['front_desk'] })).error).toMatchObject({ errors: [{ field: 'roles' }] });
    expect((await make({ expiresAt: inDays(400) })).error).toMatchObject({
      errors: [{ field: 'expiresAt' }],
    });
  });
});

describe('an invitation and a lost password', () => {
  let worker: ChildProcess;
  beforeAll(() => {
    worker = startWorker(api, `t${randomUUID().slice(0, 8)}`);
  });
  afterAll(async () => {
    await stop(worker);
  });

  const linkIn = async (address: string, nth: number): Promise<string> => {
    const mail = await eventually('the mail', 20, async () => (await mailsTo(address))[nth]);
    return /\/choose-password\/(\S+)/.exec(mail.text)?.[1] ?? '';
  };
  const choose = (link: string, chosen: string) =>
    openClient(api.url).POST('/v1/password-links/{link}', {
      params: { path: { link } },
      body: { password: chosen },
    });

  it('are answered by a link that works once', async () => {
    const email = `invited@${here.studio.handle}.example`;
    const studio = here.studio.handle;
    await here.owner.POST('/v1/staff', { body: { email, displayName: 'Invited', roles: ['front_desk'] } });
    await expect(signIn(api.url, { studio, email, password: 'no such person' })).rejects.toMatchObject({
      code: 'sign-ins.refused',
    });
    const invitation = await linkIn(email, 0);
    expect((await choose(invitation, 'too short')).error).toMatchObject({ errors: [{ field: 'password' }] });
    const both = await Promise.all(
      ['a lamp at the far quay', 'a boat in the far reeds'].map((chosen) => choose(invitation, chosen)),
    );
    expect(both.map(({ response }) => response.status).sort()).toEqual([204, 410]);

    const open = openClient(api.url);
    const asked = await Promise.all(
      [email, 'nobody@nowhere.example'].map((address) =>
        open.POST('/v1/password-resets', { body: { studio, email: address } }),
      ),
    );
    expect(asked.map(({ response }) => response.status)).toEqual([204, 204]);
    const reset = await linkIn(email, 1);
    expect(reset).not.toBe(invitation);
    expect((await choose(reset, 'another lamp at the quay')).response.status).toBe(204);
    await signIn(api.url, { studio, email, password: 'another lamp at the quay' });
    expect((await choose(reset, 'a third lamp at the quay')).response.status).toBe(410);
    expect(await mailsTo('nobody@nowhere.example')).toEqual([]);
  });
});

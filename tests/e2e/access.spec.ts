import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf, openClient, ProblemError } from '@studio/api-client';
import { openMeasuredSession, screen, takeOnClient } from '../helpers/rider.js';
import { tokenOf } from '../helpers/staff.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';

let api: TestApi;
let here: TestStudio;
let elsewhere: TestStudio;

beforeAll(async () => {
  api = await startTestApi();
  [here, elsewhere] = await Promise.all([openTestStudio(api), openTestStudio(api)]);
});
afterAll(() => api.close());

describe('sign-in', () => {
  const credentials = () => ({ studio: here.studio.handle, ...here.studio.owner });

  it('says the same for a wrong studio, address and password', async () => {
    const { studio, email, password } = credentials();
    const tries = [
      { studio: 'no-such-studio', email, password },
      { studio, email: 'nobody@nowhere.example', password },
      { studio, email, password: 'not the password' },
    ];
    const answers = await Promise.all(
      tries.map(async (body) => (await openClient(api.url).POST('/v1/sign-ins', { body })).error),
    );
    for (const answer of answers) expect(answer).toMatchObject({ status: 401, code: 'sign-ins.refused' });
  });

  it('exchanges each refresh token once; an old one ends the sign-in', async () => {
    const open = openClient(api.url);
    const { studio, email, password } = credentials();
    const first = await dataOf(open.POST('/v1/sign-ins', { body: { studio, email, password } }));
    const refresh = (refreshToken: string) =>
      dataOf(open.POST('/v1/sign-ins/refresh', { body: { refreshToken } }));
    const second = await refresh(first.refreshToken);
    await expect(refresh(first.refreshToken)).rejects.toMatchObject({ code: 'sign-ins.refresh-refused' });
    await expect(refresh(second.refreshToken)).rejects.toBeInstanceOf(ProblemError);
  });

  it('gives one of two simultaneous refreshes a new pair at most', async () => {
    const open = openClient(api.url);
    const { studio, email, password } = credentials();
    const { refreshToken } = await dataOf(open.POST('/v1/sign-ins', { body: { studio, email, password } }));
    const both = await Promise.all(
      [1, 2].map(() => open.POST('/v1/sign-ins/refresh', { body: { refreshToken } })),
    );
    expect(both.map(({ response }) => response.status).sort()).toEqual([201, 401]);
  });

  it('ends when it is ended', async () => {
    const open = openClient(api.url);
    const { studio, email, password } = credentials();
    const { refreshToken } = await dataOf(open.POST('/v1/sign-ins', { body: { studio, email, password } }));
    await dataOf(open.POST('/v1/sign-ins/end', { body: { refreshToken } }));
    await expect(dataOf(open.POST('/v1/sign-ins/refresh', { body: { refreshToken } }))).rejects.toMatchObject(
      { status: 401 },
    );
  });
});

describe('bad input', () => {
  it.each([
    ['an unknown field', { givenName: 'A', familyName: 'B', shoeSize: 43 }, 'shoeSize'],
    ['a missing field', { givenName: 'A' }, 'familyName'],
    ['a wrong type', { givenName: 7, familyName: 'B' }, 'givenName'],
    ['a day the calendar lacks', { givenName: 'A', familyName: 'B', bornOn: '2001-02-30' }, 'bornOn'],
    ['a character no text can hold', { givenName: 'A\u0000', familyName: 'B' }, 'givenName'],
  ])('%s is told with its name, and nothing is written', async (_, body, field) => {
    const count = async () => (await dataOf(elsewhere.owner.GET('/v1/clients'))).items.length;
    const before = await count();
    const { error, response } = await elsewhere.owner.POST('/v1/clients', { body: body as never });
    expect(response.headers.get('content-type')).toContain('application/problem+json');
    expect(error).toMatchObject({ status: 400, code: 'request.invalid', errors: [{ field }] });
    expect(await count()).toBe(before);
  });

  it('that is no JSON, or too much of it, is a problem document too', async () => {
    const token = await tokenOf(here, here.studio.owner.email);
    const post = (body: string) =>
      fetch(`${api.url}/v1/clients`, {
        method: 'POST',
        headers: { authorization: `Bearer ${token}`, 'content-type': 'application/json' },
        body,
      });
    expect(await (await post('{"givenName":')).json()).toMatchObject({ status: 400 });
    expect(await (await post(`"${'x'.repeat(300_000)}"`)).json()).toMatchObject({
      status: 413,
      code: 'request.too-large',
    });
  });

  it('a measurement session opened for nobody is told which', async () => {
    const client = await takeOnClient(here.owner);
    await screen(here.owner, client.clientId);
    const session = await openMeasuredSession(here.owner, client);
    expect(session).toMatch(/^[0-9a-f-]{36}$/);
    const wrongBike = { ...client, bikeId: '0199d000-0000-7000-8000-00000000ffff' };
    const { error } = await here.owner.POST('/v1/fit-sessions', { body: wrongBike });
    expect(error).toMatchObject({ status: 422, errors: [{ field: 'bikeId' }] });
  });
});

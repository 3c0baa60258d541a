import { dataOf, openClient, signIn, type StudioClient } from '@studio/api-client';
import { Secret, TOTP } from 'otpauth';
import { openIntake, visit } from './intake.js';
import { eventually, mailsTo } from './mail.js';
import { startReceiver } from './receiver.js';
import { nothingWrong, screen, takeOnClient } from './rider.js';
import type { TestStudio } from './studio.js';

/** Words about somebody's health that nothing else has. */
export const medicalWords = ['Marzipanhernia', 'Zimtfraktur'] as const;

const tokenOf = (address: string): string => new URL(address).pathname.split('/').at(-1) ?? '';

/**
 * A day on which every secret is made, used, used wrongly and used up.
 *
 * @returns what may stand nowhere but in the answer that told it: name and value
 */
export async function useEverySecret(
  { url }: { url: string },
  here: TestStudio,
): Promise<readonly (readonly [name: string, value: string])[]> {
  const { clientId } = await takeOnClient(here.owner, `secret@${here.studio.handle}.example`);
  return [
    ...(await signInAndOut(url, here)),
    ...(await byMail(url, here)),
    ...(await asPrograms(url, here)),
    ...(await onIntakePages(url, here, clientId)),
    ...(await onRecord(here, clientId)),
  ];
}

async function signInAndOut(url: string, { owner, studio }: TestStudio) {
  const password = 'nine lanterns over the quay';
  const wrong = 'nine lanterns under the quay';
  const email = `fitter@${studio.handle}.example`;
  await dataOf(
    owner.POST('/v1/staff', { body: { email, displayName: 'Fitter', password, roles: ['fitter'] } }),
  );
  const credentials = { studio: studio.handle, email, password };
  const open = openClient(url);
  const first = await dataOf(open.POST('/v1/sign-ins', { body: credentials }));
  await open.POST('/v1/sign-ins', { body: { ...credentials, password: wrong } });
  const { refreshToken } = first;
  const second = await dataOf(open.POST('/v1/sign-ins/refresh', { body: { refreshToken } }));
  const client = await signIn(url, credentials);
  const { secret, recoveryCodes } = await withSecondFactor(client, password);
  const [recoveryCode = ''] = recoveryCodes;
  for (const code of [recoveryCode, recoveryCode, '000000'])
    await open.POST('/v1/sign-ins', { body: { ...credentials, code } });
  // Used again, it ends the sign-in it belongs to.
  await open.POST('/v1/sign-ins/refresh', { body: { refreshToken } });
  await open.GET('/v1/clients', { headers: { authorization: `Bearer ${second.accessToken}x` } });
  return [
    ['a password', password],
    ['a wrong password', wrong],
    ['an access token', first.accessToken.split('.').at(-1) ?? ''],
    ['a refresh token', tokenEnd(first.refreshToken)],
    ['the next refresh token', tokenEnd(second.refreshToken)],
    ['a second factor’s secret', secret],
    ['a recovery code', recoveryCode],
  ] as const;
}

const tokenEnd = (token: string): string => token.split('.').at(-1) ?? '';

async function withSecondFactor(client: StudioClient, password: string) {
  const { secret } = await dataOf(client.POST('/v1/my-account/second-factor', { body: { password } }));
  const code = new TOTP({ secret: Secret.fromBase32(secret) }).generate();
  const body = { code };
  const { recoveryCodes } = await dataOf(client.POST('/v1/my-account/second-factor/confirmation', { body }));
  return { secret, recoveryCodes };
}

async function byMail(url: string, { studio }: TestStudio) {
  const { email } = studio.owner;
  const open = openClient(url);
  await open.POST('/v1/password-resets', { body: { studio: studio.handle, email } });
  const link = await eventually('the link', 40, async () => {
    const [mail] = await mailsTo(email);
    return /https?:\S+\/choose-password\/\S+/.exec(mail?.text ?? '')?.[0];
  });
  await visit(link);
  await open.POST('/v1/password-links/{link}', {
    params: { path: { link: tokenOf(link) } },
    body: { password: 'short' },
  });
  return [['a link to choose a password', tokenEnd(tokenOf(link))]] as const;
}

async function asPrograms(url: string, { owner, desk, serviceId, roomId }: TestStudio) {
  const expiresAt = new Date(Date.now() + 86_400_000).toISOString();
  const { key } = await dataOf(
    owner.POST('/v1/api-keys', { body: { name: 'table', roles: ['fitter'], expiresAt } }),
  );
  const open = openClient(url);
  for (const bearer of [key, `${key}x`])
    await open.GET('/v1/clients', { headers: { authorization: `Bearer ${bearer}` } });

  const receiver = await startReceiver();
  receiver.answer(500);
  const endpoint = await dataOf(
    owner.POST('/v1/webhook-endpoints', { body: { url: receiver.url, events: ['appointment.booked'] } }),
  );
  const { clientId } = await takeOnClient(owner, 'programs@riders.example');
  await dataOf(
    desk.POST('/v1/appointments', {
      body: {
        ...{ clientId, serviceId, roomId, fitterId: owner.signedIn.id, evenOutsideHours: true },
        startsAt: '2089-08-01T08:00:00Z',
      },
    }),
  );
  await eventually('a webhook', 40, () => Promise.resolve(receiver.received[0]));
  await receiver.close();

  const feed = await dataOf(owner.POST('/v1/calendar-feeds', { body: { fitterId: owner.signedIn.id } }));
  await fetch(feed.address);
  await fetch(`${feed.address}x`);
  return [
    ['an API key', key.slice(-20)],
    ['a webhook’s secret', endpoint.secret.replace('whsec_', '')],
    ['a calendar’s address', tokenEnd(tokenOf(feed.address).replace(/\.ics$/, ''))],
  ] as const;
}

async function onIntakePages(url: string, { desk }: TestStudio, clientId: string) {
  const link = `${url}${await openIntake(desk, clientId)}`;
  await visit(`${link}/start`, [['consent', 'yes']]);
  await visit(`${link}x/start`, [['consent', 'yes']]);
  await visit(`${link}/pages/nowhere`);
  return [['an intake link', tokenEnd(tokenOf(link))]] as const;
}

async function onRecord({ owner, desk }: TestStudio, clientId: string) {
  const [one, other] = medicalWords;
  await screen(desk, clientId, { ...nothingWrong, history: `${one}, long ago` });
  const of = { params: { path: { clientId } } };
  await dataOf(desk.POST('/v1/clients/{clientId}/notes', { ...of, body: { text: `${other}: rests` } }));
  // Refused for other reasons than the words.
  await desk.POST('/v1/clients/{clientId}/notes', { ...of, body: { text: one.repeat(1_000) } });
  await owner.POST('/v1/clients', { body: { givenName: '', familyName: 'B', note: other } });
  await owner.GET('/v1/clients', { params: { query: { name: one } } });
  await owner.GET('/v1/clients', { params: { query: { limit: -1, name: other } } });
  return [
    ['a word of a screening', one],
    ['a word of a note', other],
  ] as const;
}

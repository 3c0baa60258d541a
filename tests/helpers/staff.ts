import { dataOf, openClient, signIn, type components, type StudioClient } from '@studio/api-client';
import type { TestStudio } from './studio.js';

type Role = components['schemas']['StaffResponse']['roles'][number];

export const staffPassword = 'a password for tests only';

/** An access token of somebody of the studio, fresh from a sign-in. */
export async function tokenOf({ url, studio }: TestStudio, email: string): Promise<string> {
  const body = { studio: studio.handle, email, password: staffPassword };
  return (await dataOf(openClient(url).POST('/v1/sign-ins', { body }))).accessToken;
}

/** Add somebody to the studio and sign them in. */
export async function signInAs(
  here: TestStudio,
  { email, roles }: { email: string; roles: Role[] },
): Promise<{ id: string; token: string }> {
  const body = { email, displayName: email, password: staffPassword, roles };
  const { id } = await dataOf(here.owner.POST('/v1/staff', { body }));
  return { id, token: await tokenOf(here, email) };
}

/** The owner vouches for a fitter. */
export const giveMark = (here: TestStudio, staffId: string) =>
  dataOf(
    here.owner.POST('/v1/staff/{staffId}/clinician-marks', {
      params: { path: { staffId } },
      body: { registration: 'Register of physiotherapists, 00000', checkedOn: '2026-01-02' },
    }),
  );

/** Signed in anew, so with what was granted since. */
export const clientOf = ({ url, studio }: TestStudio, email: string): Promise<StudioClient> =>
  signIn(url, { studio: studio.handle, email, password: staffPassword });

import { dataOf, ProblemError, signIn, type StudioClient } from '@studio/api-client';
import { demoStaff, demoStudio } from '../demo-studio.js';
import { say } from './tell.js';

export interface Studio {
  readonly owner: StudioClient;
  readonly fitter: StudioClient & { readonly signedIn: { id: string } };
  readonly desk: StudioClient;
  readonly serviceId: string;
  readonly roomId: string;
}

/** Sign everybody in; what the studio lacks at its first start is added. */
export async function openForTheDay(apiUrl: string): Promise<Studio> {
  const studio = demoStudio.handle;
  const owner = await signIn(apiUrl, {
    studio,
    email: demoStudio.owner.email,
    password: demoStudio.owner.password,
  });
  for (const person of demoStaff) {
    await once('staff.email-taken', () =>
      dataOf(owner.POST('/v1/staff', { body: { ...person, roles: [...person.roles] } })),
    );
  }
  await once('catalogue.name-taken', () =>
    dataOf(owner.POST('/v1/services', { body: { name: 'First fit', durationMinutes: 120 } })),
  );
  await once('premises.name-taken', () => dataOf(owner.POST('/v1/rooms', { body: { name: 'Fit bay' } })));

  const [service] = (await dataOf(owner.GET('/v1/services'))).items;
  const [room] = (await dataOf(owner.GET('/v1/rooms'))).items;
  if (!service || !room) throw new Error('the studio has no service or no room');
  const [{ email: fitterEmail, password: fitterPassword }, { email: deskEmail, password: deskPassword }] =
    demoStaff;
  say(
    `${demoStudio.name} is open: ${service.name} takes ${service.durationMinutes} minutes, in the ${room.name}.`,
  );
  return {
    owner,
    fitter: await signIn(apiUrl, { studio, email: fitterEmail, password: fitterPassword }),
    desk: await signIn(apiUrl, { studio, email: deskEmail, password: deskPassword }),
    serviceId: service.id,
    roomId: room.id,
  };
}

/** Do it unless it was done in an earlier run. */
async function once(alreadyDone: string, work: () => Promise<unknown>): Promise<void> {
  try {
    await work();
  } catch (error) {
    if (!(error instanceof ProblemError) || error.code !== alreadyDone) throw error;
  }
}

/** The problem a call ends with. */
export async function refused(call: Promise<unknown>): Promise<ProblemError> {
  try {
    await call;
  } catch (error) {
    if (error instanceof ProblemError) return error;
    throw error;
  }
  throw new Error('this was expected to be refused, and was not');
}

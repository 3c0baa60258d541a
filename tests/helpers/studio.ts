import { signIn, type StudioClient } from '@studio/api-client';
import { randomBytes, randomUUID } from 'node:crypto';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { FirstStudio } from '../../seed/src/open-studio.js';
import { apiEnvironment } from './api-environment.js';
import { createTestDatabase, service, type TestDatabase } from './database.js';

export interface TestApi {
  readonly url: string;
  readonly database: TestDatabase;
  /** Where it keeps photos and documents; its worker has to have the same. */
  readonly storageFolder: string;
  readonly close: () => Promise<void>;
}

export const webhookKey = 'a key for the webhooks of tests only';

/** The API really listening, on a database of its own. */
export async function startTestApi(env: NodeJS.ProcessEnv = {}, ready?: TestDatabase): Promise<TestApi> {
  const database = ready ?? (await createTestDatabase());
  const storageFolder = await mkdtemp(path.join(tmpdir(), 'studio-files-'));
  const { url } = await askHost<{ url: string }>('start', {
    ...(await apiEnvironment(database)),
    STORAGE_FOLDER: storageFolder,
    WEBHOOK_KEY: webhookKey,
    LOCAL_WEBHOOKS: '1',
    LOG_LEVEL: 'silent',
    TEST_CLOCK: '1',
    ...env,
  });
  return {
    url,
    database,
    storageFolder,
    close: async () => {
      await askHost('stop', { url });
      await database.drop();
      await rm(storageFolder, { recursive: true });
    },
  };
}

/** What api-host.mjs does. */
async function askHost<Answer>(path: 'start' | 'stop' | 'open-studio', body: object): Promise<Answer> {
  const response = await fetch(`${service('TEST_API_HOST')}/${path}`, {
    method: 'POST',
    body: JSON.stringify(body),
  });
  if (!response.ok) throw new Error(await response.text());
  return (await response.json()) as Answer;
}

/** Open a studio in a database, as the command does. */
export async function openStudio(ownerUrl: string, studio: FirstStudio): Promise<void> {
  await askHost('open-studio', { ownerUrl, studio });
}

export interface TestStudio {
  readonly url: string;
  readonly studio: FirstStudio;
  /** Owner and fitter in one. */
  readonly owner: StudioClient & { readonly signedIn: { id: string } };
  readonly desk: StudioClient;
  readonly serviceId: string;
  readonly roomId: string;
}

const password = 'a password for tests only';

/** A studio with an owner who also fits, a front desk, a service and a room. */
export async function openTestStudio(api: Pick<TestApi, 'url' | 'database'>): Promise<TestStudio> {
  const handle = `studio-${randomBytes(6).toString('hex')}`;
  const studio: FirstStudio = {
    studioId: randomUUID(),
    handle,
    name: `Studio ${handle}`,
    timeZone: 'Europe/Copenhagen',
    owner: { email: `owner@${handle}.example`, displayName: 'Owner', password },
  };
  await openStudio(api.database.ownerUrl, studio);
  const owner = await signIn(api.url, { studio: handle, email: studio.owner.email, password });
  const desk = {
    email: `desk@${handle}.example`,
    displayName: 'Desk',
    password,
    roles: ['front_desk' as const],
  };
  await owner.POST('/v1/staff', { body: desk });
  const { data: service } = await owner.POST('/v1/services', {
    body: { name: 'First fit', durationMinutes: 60 },
  });
  const { data: room } = await owner.POST('/v1/rooms', { body: { name: 'Fit bay' } });
  if (!service || !room) throw new Error('the studio could not be set up');
  return {
    ...{ url: api.url, studio, owner },
    desk: await signIn(api.url, { studio: handle, email: desk.email, password }),
    serviceId: service.id,
    roomId: room.id,
  };
}

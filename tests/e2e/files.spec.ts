import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf } from '@studio/api-client';
import { randomUUID } from 'node:crypto';
import { readdir } from 'node:fs/promises';
import pg from 'pg';
import { formOf, onePixel, uploadPhoto } from '../helpers/files.js';
import {
  openMeasuredSession,
  screen,
  signedSession,
  takeOnClient,
  type TestClient,
} from '../helpers/rider.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';
import { startWorker, stop } from '../helpers/worker.js';

let api: TestApi;
let studio: TestStudio;
let client: TestClient;

beforeAll(async () => {
  api = await startTestApi();
  studio = await openTestStudio(api);
  client = await takeOnClient(studio.owner);
  await screen(studio.owner, client.clientId);
});
afterAll(() => api.close());

const upload = (form: ReturnType<typeof formOf>, header: Record<string, string> = {}) =>
  studio.owner.POST('/v1/clients/{clientId}/files', {
    params: { path: { clientId: client.clientId }, header },
    ...form,
  });
const photo = { content: onePixel, name: 'left.png' };

describe('photos and files', () => {
  it('are kept with what they show, and read by an address that holds a while', async () => {
    const fitSessionId = await openMeasuredSession(studio.owner, client);
    const file = await uploadPhoto(studio.owner, client.clientId, {
      ...photo,
      fitSessionId,
      shoeId: client.shoeId,
      caption: 'Left sole',
    });
    expect(file).toMatchObject({
      ...{
        clientId: client.clientId,
        fitSessionId,
        shoeId: client.shoeId,
        bikeId: null,
        caption: 'Left sole',
      },
      ...{ fileName: 'left.png', mediaType: 'image/png', widthPx: 1, heightPx: 1 },
    });

    const read = await fetch(file.url);
    expect(read.status).toBe(200);
    expect(read.headers.get('content-type')).toBe('image/png');
    expect(read.headers.get('content-disposition')).toContain('left.png');
    expect(read.headers.get('x-content-type-options')).toBe('nosniff');
    expect(read.headers.get('content-security-policy')).toContain('sandbox');
    expect((await read.arrayBuffer()).byteLength).toBe(file.bytes);
    expect((await fetch(file.thumbnailUrl ?? '')).headers.get('content-type')).toBe('image/webp');

    for (const changed of [
      file.url.replace('type=image%2Fpng', 'type=text%2Fhtml'),
      file.url.replace(file.id, randomUUID()),
      file.url.replace(/expires=\d+/, 'expires=99999999999999'),
    ]) {
      expect(changed).not.toBe(file.url);
      expect((await fetch(changed)).status).toBe(404);
    }
    const ofSession = await dataOf(
      studio.owner.GET('/v1/clients/{clientId}/files', {
        params: { path: { clientId: client.clientId }, query: { fitSessionId } },
      }),
    );
    expect(ofSession.items.map(({ id }) => id)).toEqual([file.id]);
  });

  it('are no business of the front desk', async () => {
    const { id } = await uploadPhoto(studio.owner, client.clientId);
    const path = { clientId: client.clientId };
    expect(
      (await studio.desk.GET('/v1/clients/{clientId}/files', { params: { path } })).response.status,
    ).toBe(403);
    expect(
      (await studio.desk.GET('/v1/files/{fileId}', { params: { path: { fileId: id } } })).response.status,
    ).toBe(403);
  });

  it('need the consent to health data', async () => {
    const { id: clientId } = await dataOf(
      studio.desk.POST('/v1/clients', { body: { givenName: 'A', familyName: 'B' } }),
    );
    const refused = await studio.owner.POST('/v1/clients/{clientId}/files', {
      params: { path: { clientId } },
      ...formOf(photo),
    });
    expect(refused.error).toMatchObject({ status: 409, code: 'clients.consent-missing' });
  });

  it('are refused with the field at fault named', async () => {
    const page = { content: Buffer.from('<!doctype html><script>alert(1)</script>'), name: 'photo.png' };
    const huge = { content: Buffer.alloc(15 * 1024 * 1024 + 1), name: 'huge.png' };
    expect((await upload(formOf(page))).error).toMatchObject({ status: 422, code: 'files.type-refused' });
    expect((await upload(formOf(huge))).error).toMatchObject({ status: 413 });
    expect((await upload(formOf(photo, { bikeId: 'x' }))).error).toMatchObject({
      status: 400,
      errors: [{ field: 'bikeId' }],
    });
    expect((await upload(formOf(photo, { other: 'x' } as object))).error).toMatchObject({
      errors: [{ field: 'other' }],
    });
    const none = { body: { file: '' }, bodySerializer: () => new FormData() };
    expect((await upload(none)).error).toMatchObject({ status: 400, errors: [{ field: 'file' }] });
    const json = { body: { file: '' }, bodySerializer: () => '{}' as unknown as FormData };
    expect((await upload(json, { 'content-type': 'application/json' })).error).toMatchObject({
      errors: [{ field: 'file' }],
    });
    const { bikeId } = await takeOnClient(studio.owner, 'other@riders.example');
    expect((await upload(formOf(photo, { bikeId }))).error).toMatchObject({
      status: 422,
      errors: [{ field: 'bikeId' }],
    });
  });

  it('come to be once for one Idempotency-Key', async () => {
    const header = { 'Idempotency-Key': randomUUID() };
    const first = await dataOf(upload(formOf(photo), header));
    const again = await dataOf(upload(formOf(photo), header));
    expect(again.id).toBe(first.id);
    expect((await fetch(again.url)).status).toBe(200);
    const other = await upload(formOf({ ...photo, name: 'right.png' }), header);
    expect(other.error).toMatchObject({ code: 'idempotency-key.used-for-another' });
  });

  it('stay with a signed session', async () => {
    const rider = await takeOnClient(studio.owner, 'signed@riders.example');
    await screen(studio.owner, rider.clientId);
    const { fitSessionId } = await signedSession(studio.owner, rider);
    const late = await studio.owner.POST('/v1/clients/{clientId}/files', {
      params: { path: { clientId: rider.clientId } },
      ...formOf(photo, { fitSessionId }),
    });
    expect(late.error).toMatchObject({ status: 409, code: 'files.session-signed' });
  });

  it('are gone with their bytes once deleted, and so is what was never finished', async () => {
    const file = await uploadPhoto(studio.owner, client.clientId);
    const folder = `${api.storageFolder}/${studio.studio.studioId}/files`;
    const kept = async () => (await readdir(`${folder}/${file.id}`)).length;
    expect(await kept()).toBe(2);
    const of = { params: { path: { fileId: file.id } } };
    expect((await studio.owner.DELETE('/v1/files/{fileId}', of)).response.status).toBe(204);
    expect((await studio.owner.GET('/v1/files/{fileId}', of)).response.status).toBe(404);
    expect((await studio.owner.DELETE('/v1/files/{fileId}', of)).response.status).toBe(404);

    // A repeated upload left bytes of its own that no row names: an hour later they go too.
    const admin = new pg.Client({ connectionString: api.database.adminUrl });
    await admin.connect();
    await admin.query('UPDATE outbox SET available_at = now()');
    const worker = startWorker(api, 'files');
    const open = async () => {
      const { rows } = await admin.query<{ open: number }>(
        `SELECT count(*)::int AS open FROM outbox WHERE job = 'remove-file' AND done_at IS NULL`,
      );
      return rows[0]?.open;
    };
    while ((await open()) !== 0) await new Promise((resolve) => setTimeout(resolve, 100));
    await stop(worker);
    const { rows } = await admin.query<{ id: string }>('SELECT id FROM files WHERE studio_id = $1', [
      studio.studio.studioId,
    ]);
    await admin.end();
    const left = await Promise.all(
      (await readdir(folder)).map(async (id) => ((await readdir(`${folder}/${id}`)).length > 0 ? [id] : [])),
    );
    expect(left.flat().sort()).toEqual(rows.map(({ id }) => id).sort());
    expect((await fetch(file.url)).status).toBe(404);
  });
});

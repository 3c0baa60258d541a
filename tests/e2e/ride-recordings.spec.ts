import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf } from '@studio/api-client';
import { askFirstFollowUp } from '../helpers/follow-up.js';
import { visit } from '../helpers/intake.js';
import { nothingWrong, screen, signedSession, takeOnClient } from '../helpers/rider.js';
import { sendRide, steadyRide } from '../helpers/ride.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';

let api: TestApi;
let studio: TestStudio;

beforeAll(async () => {
  api = await startTestApi();
  studio = await openTestStudio(api);
});
afterAll(() => api.close());

const hour = 3_600_000;
const sinceTheFit = (powerW: number, minutes = 25): string =>
  steadyRide({ startsAt: new Date(Date.now() + hour), minutes, powerW });

async function asked(): Promise<{ clientId: string; pages: string }> {
  const client = await takeOnClient(studio.owner);
  await screen(studio.desk, client.clientId);
  await signedSession(studio.owner, client);
  return {
    clientId: client.clientId,
    pages: `${api.url}${await askFirstFollowUp(api, studio, client.clientId)}`,
  };
}

const filesOf = async (clientId: string) =>
  (await dataOf(studio.owner.GET('/v1/clients/{clientId}/files', { params: { path: { clientId } } }))).items;
const rideOf = async (clientId: string) => {
  const of = { params: { path: { clientId } } };
  const { items } = await dataOf(studio.owner.GET('/v1/clients/{clientId}/follow-ups', of));
  const path = { followUpId: items[0]?.id ?? '' };
  return (await dataOf(studio.owner.GET('/v1/follow-ups/{followUpId}', { params: { path } }))).ride;
};

describe('a ride recording sent with a follow-up', () => {
  it('is read, kept as a file of the client, and shown to who fits', async () => {
    const { clientId, pages } = await asked();
    expect((await visit(`${pages}/ride`)).html).toContain('Send the recording');
    const ride = sinceTheFit(262);
    const sent = await sendRide(pages, ride, 'C:\\rides\\evening loop.csv');
    expect(sent.status).toBe(200);
    expect(sent.html).toContain('Best 20 minutes: 262 W from 0:00:00 on; power known for 100 % of them.');

    const [file] = await filesOf(clientId);
    expect(file).toMatchObject({
      fileName: 'evening loop.csv',
      mediaType: 'application/octet-stream',
      uploadedBy: null,
      thumbnailUrl: null,
    });
    expect(await (await fetch(file?.url ?? '')).text()).toBe(ride);
    expect(await rideOf(clientId)).toMatchObject({
      ...{ fileId: file?.id, fileName: 'evening loop.csv', format: 'csv', durationS: 1500 },
      ...{ power20MinW: 262, sprintPeakW: 262, sprint5sW: 262 },
    });
    const path = { fileId: file?.id ?? '' };
    expect((await studio.desk.GET('/v1/files/{fileId}', { params: { path } })).response.status).toBe(403);
  });

  it('takes the place of the one before, and can be taken back', async () => {
    const { clientId, pages } = await asked();
    await sendRide(pages, sinceTheFit(240));
    await sendRide(pages, sinceTheFit(250), 'second.csv');
    expect((await filesOf(clientId)).map(({ fileName }) => fileName)).toEqual(['second.csv']);
    expect((await rideOf(clientId))?.power20MinW).toBe(250);
    const back = await visit(`${pages}/ride/removal`, []);
    expect(back.html).not.toContain('What was read from it');
    expect([await filesOf(clientId), await rideOf(clientId)]).toEqual([[], null]);
  });

  it('is gone from the follow-up when its file is deleted', async () => {
    const { clientId, pages } = await asked();
    await sendRide(pages, sinceTheFit(240));
    const [file] = await filesOf(clientId);
    await studio.owner.DELETE('/v1/files/{fileId}', { params: { path: { fileId: file?.id ?? '' } } });
    expect(await rideOf(clientId)).toBeNull();
  });

  it('may hold no 20 minutes: it is kept, and says why there are none', async () => {
    const { clientId, pages } = await asked();
    await sendRide(pages, sinceTheFit(240, 10));
    expect(await rideOf(clientId)).toMatchObject({
      power20MinW: null,
      power20MinWords: 'No 20-minute power: shorter than 20 minutes.',
    });
  });

  it('is not asked of whom a finding keeps from hard efforts, nor taken without consent or by a strange link', async () => {
    const { clientId, pages } = await asked();
    await screen(studio.desk, clientId, { ...nothingWrong, calf_pain_on_walking: 'yes' });
    expect((await visit(`${pages}/ride`)).status).toBe(404);
    expect((await sendRide(pages, sinceTheFit(240))).status).toBe(404);
    expect((await sendRide(`${api.url}/follow-up/nothing`, sinceTheFit(240))).status).toBe(404);
    expect(await filesOf(clientId)).toEqual([]);

    const other = await asked();
    const path = { clientId: other.clientId, kind: 'health_data' as const };
    await dataOf(studio.desk.POST('/v1/clients/{clientId}/consents/{kind}/withdrawal', { params: { path } }));
    expect((await sendRide(other.pages, sinceTheFit(240))).status).toBeGreaterThanOrEqual(400);
    expect(await filesOf(other.clientId)).toEqual([]);
  });
});

describe('a recording that is refused', () => {
  let clientId: string;
  let pages: string;
  beforeAll(async () => {
    ({ clientId, pages } = await asked());
  });

  it.each([
    [
      'broken',
      'time,power_w\n2026-03-01T10:00:00Z,240\nnever,250\n',
      'Line 3 of the table has a cell that is no time.',
    ],
    ['no recording', '%PDF-1.7\n1 0 obj', 'neither FIT, TCX or GPX'],
    ['empty', '', 'Choose a file first.'],
    [
      'from before the fit',
      steadyRide({ startsAt: new Date('2024-05-01T10:00:00Z'), minutes: 2, powerW: 200 }),
      'before your fit',
    ],
    [
      'from years to come',
      steadyRide({ startsAt: new Date('2099-05-01T10:00:00Z'), minutes: 2, powerW: 200 }),
      'still to come',
    ],
    ['without a date', 'seconds,power_w\n0,200\n1,210\n', 'does not say when'],
    ['too large', Buffer.alloc(17 * 1024 ** 2, 'x'), 'larger than 16 MB'],
  ])('is told why in a plain sentence when it is %s, and nothing is kept', async (_, content, words) => {
    const sent = await sendRide(pages, content);
    const told = /<p class="error" id="file-error">([^<]*)</.exec(sent.html)?.[1];
    expect([sent.status, told]).toEqual([422, expect.stringContaining(words)]);
    expect([await filesOf(clientId), await rideOf(clientId)]).toEqual([[], null]);
  });
});

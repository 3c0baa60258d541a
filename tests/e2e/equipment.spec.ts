import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf, type components } from '@studio/api-client';
import { screen, takeOnClient, type TestClient } from '../helpers/rider.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';

type Schemas = components['schemas'];
type PartKind = Schemas['FittedPartResponse']['kind'];

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

const ofClient = () => ({ params: { path: { clientId: client.clientId } } });
const at = (bikeId: string, version: number) => ({
  ...{ path: { clientId: client.clientId, bikeId }, header: { 'If-Match': `"${version}"` } },
});
const gravel: Schemas['CreateBikeRequest'] = {
  ...{ name: 'Gravel bike', kind: 'gravel', crankLengthMm: 170, seatTubeAngleDeg: 73.5 },
  frame: { stackMm: 575, reachMm: 382, headTubeAngleDeg: 71 },
  uses: ['long_rides', 'off_road'],
};

describe('bikes', () => {
  it('are several to a client, with frame or contact points, uses, and are changed by version', async () => {
    const bike = await dataOf(
      studio.owner.POST('/v1/clients/{clientId}/bikes', { ...ofClient(), body: gravel }),
    );
    expect(bike).toMatchObject({ ...gravel, contactPoints: null, parts: [], version: 1, archivedAt: null });
    const list = await dataOf(studio.owner.GET('/v1/clients/{clientId}/bikes', ofClient()));
    expect(list.map(({ id, kind, frame }) => [id, kind, frame])).toEqual([
      [client.bikeId, 'other', null],
      [bike.id, 'gravel', gravel.frame],
    ]);
    const change = (version: number, body: Schemas['UpdateBikeRequest']) =>
      studio.owner.PATCH('/v1/clients/{clientId}/bikes/{bikeId}', { params: at(bike.id, version), body });
    const contactPoints = {
      saddle: { xMm: -190, yMm: 690 },
      upperGrip: { xMm: 500, yMm: 650 },
      lowerGripYMm: null,
    };
    const changed = await dataOf(change(1, { frame: null, contactPoints }));
    expect(changed).toMatchObject({ frame: null, contactPoints, name: gravel.name, version: 2 });
    expect((await change(1, { name: 'Late' })).error).toMatchObject({ status: 412, code: 'version.stale' });
    const half = { stackMm: 560 } as Schemas['FrameRequest'];
    expect((await change(2, { frame: half })).error).toMatchObject({
      ...{ status: 400, errors: [{ field: 'frame.reachMm' }, { field: 'frame.headTubeAngleDeg' }] },
    });
  });

  it('have parts by kind with a history, and no part goes before it came', async () => {
    const { id: bikeId } = await dataOf(
      studio.owner.POST('/v1/clients/{clientId}/bikes', { ...ofClient(), body: gravel }),
    );
    const fit = (version: number, partKind: PartKind, body: Schemas['FittedPartRequest']) =>
      studio.owner.PUT('/v1/clients/{clientId}/bikes/{bikeId}/parts/{partKind}', {
        params: { ...at(bikeId, version), path: { clientId: client.clientId, bikeId, partKind } },
        body,
      });
    const stem = { lengthMm: 100, angleDeg: -6 };
    await dataOf(fit(1, 'stem', { stem, validFrom: '2026-01-10T10:00:00Z' }));
    const shorter = { lengthMm: 90, angleDeg: -6 };
    await dataOf(
      fit(2, 'stem', { stem: shorter, validFrom: '2026-03-02T10:00:00Z', description: 'Lighter.' }),
    );
    const withCranks = await dataOf(fit(3, 'cranks', { cranks: { lengthMm: 165 } }));
    expect(withCranks).toMatchObject({ crankLengthMm: 165, version: 4 });
    expect(withCranks.parts.map(({ kind, facts }) => [kind, facts])).toEqual([
      ['cranks', { lengthMm: 165 }],
      ['stem', shorter],
    ]);
    expect((await fit(4, 'stem', { cranks: { lengthMm: 170 } })).error).toMatchObject({
      ...{ status: 400, errors: [{ field: 'stem' }, { field: 'cranks' }] },
    });
    expect((await fit(4, 'stem', { stem, validFrom: '2026-01-11T10:00:00Z' })).error).toMatchObject({
      ...{ status: 422, errors: [{ field: 'validFrom' }] },
    });
    expect((await fit(1, 'stem', { stem })).error).toMatchObject({ status: 412 });
    const removed = await studio.owner.DELETE('/v1/clients/{clientId}/bikes/{bikeId}/parts/{partKind}', {
      params: { ...at(bikeId, 4), path: { clientId: client.clientId, bikeId, partKind: 'cranks' } },
    });
    expect(removed.data?.parts.map(({ kind }) => kind)).toEqual(['stem']);
    const { items } = await dataOf(
      studio.owner.GET('/v1/clients/{clientId}/bikes/{bikeId}/parts', {
        params: { path: { clientId: client.clientId, bikeId } },
      }),
    );
    const by = studio.owner.signedIn.id;
    expect(items).toMatchObject([
      { kind: 'stem', facts: stem, validTo: '2026-03-02T10:00:00.000Z', fittedBy: by, removedBy: by },
      { kind: 'stem', facts: shorter, description: 'Lighter.', validTo: null, removedBy: null },
      { kind: 'cranks', removedBy: by },
    ]);
  });

  it('put away open no session until they are taken up again', async () => {
    const { id: bikeId } = await dataOf(
      studio.owner.POST('/v1/clients/{clientId}/bikes', { ...ofClient(), body: gravel }),
    );
    const archive = (version: number, archived: boolean) =>
      dataOf(
        studio.owner.PATCH('/v1/clients/{clientId}/bikes/{bikeId}', {
          params: at(bikeId, version),
          body: { archived },
        }),
      );
    expect((await archive(1, true)).archivedAt).not.toBeNull();
    const open = () => studio.owner.POST('/v1/fit-sessions', { body: { ...client, bikeId } });
    expect((await open()).error).toMatchObject({
      ...{ status: 409, code: 'equipment.put-away', errors: [{ field: 'bikeId' }] },
    });
    await archive(2, false);
    expect((await open()).response.status).toBe(201);
  });
});

describe('shoes', () => {
  const shoe: Schemas['CreateShoeRequest'] = {
    ...{ name: 'Winter shoes', outerLengthMm: 295, holePattern: 'two_bolt', archChannel: true },
    ...{ slotFrontFromHeelMm: 215, slotRearFromHeelMm: 195, boltLineFromHeelMm: 205 },
    ...{ soleCurve: 'flat', soleMaterial: 'rubber' },
  };
  const post = (body: Schemas['CreateShoeRequest']) =>
    studio.owner.POST('/v1/clients/{clientId}/shoes', { ...ofClient(), body });

  it('have a size that is told in every system by way of the foot', async () => {
    const markedSize = { system: 'eu', size: 43 } as const;
    const made = await dataOf(post({ ...shoe, markedSize }));
    expect(made).toMatchObject({ ...shoe, markedSize, version: 1, hardware: [] });
    expect(made.footLengthMm).toBeCloseTo(273.33, 2);
    expect(made.sizes.map(({ system, marked }) => [system, marked])).toEqual([
      ['mondopoint', 275],
      ['centimetre', 27.5],
      ['eu', 43],
      ['uk', 9.5],
      ['us_men', 10.5],
      ['us_women', 11.5],
    ]);
    expect(await dataOf(post({ ...shoe, markedSize, footLengthMm: 270 }))).toMatchObject({
      footLengthMm: 270,
    });
    expect(await dataOf(post(shoe))).toMatchObject({ footLengthMm: null, sizes: [] });
    expect((await post({ ...shoe, markedSize: { system: 'uk', size: 43 } })).error).toMatchObject({
      ...{ status: 422, errors: [{ field: 'size' }] },
    });
    expect((await post({ ...shoe, boltLineFromHeelMm: 300 })).error).toMatchObject({
      ...{ status: 422, errors: [{ field: 'boltLineFromHeelMm' }] },
    });
    expect((await post({ ...shoe, slotFrontFromHeelMm: 190 })).error).toMatchObject({
      ...{ status: 422, code: 'equipment.slots-out-of-order' },
    });
  });

  it('carry hardware by kind on each side, with a history', async () => {
    const { id: shoeId } = await dataOf(post(shoe));
    const params = (version: number) => ({
      ...{ path: { clientId: client.clientId, shoeId }, header: { 'If-Match': `"${version}"` } },
    });
    const mount = (version: number, body: Schemas['MountHardwareRequest']) =>
      studio.owner.POST('/v1/clients/{clientId}/shoes/{shoeId}/hardware', { params: params(version), body });
    const cleat = { side: 'left', kind: 'two_bolt_cleat' } as const;
    const { hardware } = await dataOf(mount(1, cleat));
    await dataOf(mount(2, { ...cleat, side: 'right' }));
    await dataOf(mount(3, { side: 'left', kind: 'cleat_shim', note: '3 mm' }));
    expect((await mount(4, cleat)).error).toMatchObject({ status: 409, code: 'equipment.already-mounted' });
    const off = await studio.owner.DELETE('/v1/clients/{clientId}/shoes/{shoeId}/hardware/{hardwareId}', {
      params: {
        ...params(4),
        path: { clientId: client.clientId, shoeId, hardwareId: hardware[0]?.id ?? '' },
      },
    });
    expect(off.data?.hardware.map(({ side, kind }) => `${side} ${kind}`)).toEqual([
      'left cleat_shim',
      'right two_bolt_cleat',
    ]);
    const { items } = await dataOf(
      studio.owner.GET('/v1/clients/{clientId}/shoes/{shoeId}/hardware', {
        params: { path: { clientId: client.clientId, shoeId } },
      }),
    );
    expect(items.map(({ kind, validTo }) => [kind, validTo !== null])).toEqual([
      ['two_bolt_cleat', true],
      ['two_bolt_cleat', false],
      ['cleat_shim', false],
    ]);
    const changed = await dataOf(
      studio.owner.PATCH('/v1/clients/{clientId}/shoes/{shoeId}', {
        params: params(5),
        body: { markedSize: { system: 'us_men', size: 9.5 }, soleCurve: null, archived: true },
      }),
    );
    expect(changed).toMatchObject({ soleCurve: null, soleMaterial: 'rubber', version: 6 });
    expect(changed.footLengthMm).toBeCloseTo((9.5 + 22) * (25.4 / 3), 6);
    expect(changed.archivedAt).not.toBeNull();
  });
});

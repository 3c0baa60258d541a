import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf, type components } from '@studio/api-client';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';

let api: TestApi;
let studio: TestStudio;

beforeAll(async () => {
  api = await startTestApi();
  studio = await openTestStudio(api);
});
afterAll(() => api.close());

const shoeWork: components['schemas']['CreateServiceRequest'] = {
  name: 'Shoe work',
  durationMinutes: 45,
  bufferBeforeMinutes: 5,
  bufferAfterMinutes: 10,
  curingMinutes: 720,
  requiredSkills: ['shoe_work'],
  requiredEquipment: ['heat_press'],
  prerequisites: ['intake', 'clearance'],
  price: { amountMinor: 129_500, currency: 'DKK' },
  taxRatePercent: '25',
  onlineBookable: true,
  followUpsIncluded: 1,
  leadTimeMinutes: 120,
  horizonDays: 90,
};

describe('a service', () => {
  it('says what it takes, needs, costs and brings', async () => {
    const created = await dataOf(studio.owner.POST('/v1/services', { body: shoeWork }));
    expect(created).toMatchObject({
      ...shoeWork,
      price: {
        ...{ amountMinor: 129_500, currency: 'DKK', amount: '1295.00' },
        ...{ netMinor: 103_600, taxMinor: 25_900, grossMinor: 129_500 },
      },
      retired: false,
      version: 1,
    });
    const read = await studio.desk.GET('/v1/services/{serviceId}', {
      params: { path: { serviceId: created.id } },
    });
    expect(read.data).toEqual(created);
    expect(read.response.headers.get('etag')).toBe('"1"');
  });

  it('has a price of its currency: none after the point for yen, three for dinar', async () => {
    const priced = async (name: string, currency: string) =>
      (
        await dataOf(
          studio.owner.POST('/v1/services', {
            body: { name, durationMinutes: 30, price: { amountMinor: 15_000, currency } },
          }),
        )
      ).price?.amount;
    expect(await priced('Yen', 'JPY')).toBe('15000');
    expect(await priced('Dinar', 'KWD')).toBe('15.000');
  });

  it.each([
    ['a currency that is none', { price: { amountMinor: 1, currency: 'XXX' } }, 'price.currency'],
    ['half a minor unit', { price: { amountMinor: 0.5, currency: 'EUR' } }, 'price.amountMinor'],
    ['a rate that is no decimal', { taxRatePercent: '2e1' }, 'taxRatePercent'],
    ['a skill twice', { requiredSkills: ['a', 'a'] }, 'requiredSkills'],
    ['null where something must stand', { bufferAfterMinutes: null }, 'bufferAfterMinutes'],
  ])('is refused with %s', async (_, wrong, field) => {
    const body = { name: 'Wrong', durationMinutes: 30, ...wrong } as never;
    const { error } = await studio.owner.POST('/v1/services', { body });
    expect(error).toMatchObject({ status: 400, errors: [{ field }] });
  });

  it('is changed by the one who saw the newest version, and by nobody who names none', async () => {
    const { id } = await dataOf(
      studio.owner.POST('/v1/services', { body: { name: 'Changing', durationMinutes: 30 } }),
    );
    const change = (header: { 'If-Match': string }, body: components['schemas']['UpdateServiceRequest']) =>
      studio.owner.PATCH('/v1/services/{serviceId}', {
        params: { path: { serviceId: id }, header },
        body,
      });
    const price = { amountMinor: 100, currency: 'EUR' };
    const first = await change({ 'If-Match': '"1"' }, { price, retired: true });
    expect(first.data).toMatchObject({ durationMinutes: 30, retired: true, version: 2 });
    expect(first.response.headers.get('etag')).toBe('"2"');
    for (const stale of ['"1"', 'W/"2"', '"other"']) {
      expect((await change({ 'If-Match': stale }, { price: null })).error).toMatchObject({
        status: 412,
        code: 'version.stale',
      });
    }
    for (const none of [{}, { 'If-Match': '*' }]) {
      expect((await change(none as never, { price: null })).error).toMatchObject({
        status: 428,
        code: 'version.missing',
      });
    }
    const last = await dataOf(change({ 'If-Match': '"2"' }, { price: null, retired: false }));
    expect(last).toMatchObject({ price: null, retired: false });
  });
});

describe('an Idempotency-Key', () => {
  const create = (key: string, name: string) =>
    studio.owner.POST('/v1/services', {
      params: { header: { 'Idempotency-Key': key } },
      body: { name, durationMinutes: 30 },
    });
  const named = async (name: string) =>
    (await dataOf(studio.owner.GET('/v1/services'))).items.filter((service) => service.name === name);

  it('gives a repeated create its first answer, and makes one thing', async () => {
    const first = await dataOf(create('"key-1"', 'Once'));
    expect(await dataOf(create('key-1', 'Once'))).toEqual(first);
    expect(await named('Once')).toHaveLength(1);
  });

  it('makes one thing of twenty creates at once', async () => {
    const all = await Promise.all(Array.from({ length: 20 }, () => dataOf(create('key-2', 'Race'))));
    expect(new Set(all.map(({ id }) => id)).size).toBe(1);
    expect(await named('Race')).toHaveLength(1);
  });

  it('is refused for another request, and is not used up by a failure', async () => {
    await dataOf(create('key-3', 'Third'));
    expect((await create('key-3', 'Fourth')).error).toMatchObject({
      status: 422,
      code: 'idempotency-key.used-for-another',
    });
    expect((await create('key-4', 'Third')).error).toMatchObject({ code: 'catalogue.name-taken' });
    expect((await create('key-4', 'Fourth')).response.status).toBe(201);
  });

  it('belongs to one person, and must be a key', async () => {
    await dataOf(create('key-5', 'Fifth'));
    const other = await openTestStudio(api);
    const { response } = await other.owner.POST('/v1/services', {
      params: { header: { 'Idempotency-Key': 'key-5' } },
      body: { name: 'Other', durationMinutes: 30 },
    });
    expect(response.status).toBe(201);
    expect((await create('two words', 'Sixth')).error).toMatchObject({
      status: 400,
      errors: [{ field: 'Idempotency-Key' }],
    });
  });

  it('is forgotten after a day', async () => {
    await dataOf(create('key-6', 'Seventh'));
    await dataOf(studio.owner.POST('/v1/test-clock/advance', { body: { seconds: 86_401 } }));
    expect((await create('key-6', 'Eighth')).response.status).toBe(201);
  });
});

describe('premises and people', () => {
  it('are several places, each in its own zone', async () => {
    const home = await dataOf(studio.owner.POST('/v1/sites', { body: { name: 'Home' } }));
    const away = await dataOf(
      studio.owner.POST('/v1/sites', { body: { name: 'Away', timeZone: 'Pacific/Auckland' } }),
    );
    expect([home.timeZone, away.timeZone]).toEqual(['Europe/Copenhagen', 'Pacific/Auckland']);
    const room = await dataOf(
      studio.owner.POST('/v1/rooms', {
        body: { name: 'South bay', siteId: away.id, equipment: ['heat_press'] },
      }),
    );
    const moved = await dataOf(
      studio.owner.PATCH('/v1/rooms/{roomId}', {
        params: { path: { roomId: room.id }, header: { 'If-Match': '"1"' } },
        body: { siteId: home.id },
      }),
    );
    expect(moved).toMatchObject({ siteId: home.id, equipment: ['heat_press'], version: 2 });
    const nowhere = await studio.owner.POST('/v1/benches', {
      body: { name: 'Lost', siteId: '0199d000-0000-7000-8000-00000000ffff' },
    });
    expect(nowhere.error).toMatchObject({ status: 422, errors: [{ field: 'siteId' }] });
    const zone = await studio.owner.POST('/v1/sites', { body: { name: 'Moon', timeZone: 'Moon/Tycho' } });
    expect(zone.error).toMatchObject({ status: 400, errors: [{ field: 'timeZone' }] });
    const again = await studio.owner.POST('/v1/sites', { body: { name: 'Home' } });
    expect(again.error).toMatchObject({ status: 409, code: 'premises.name-taken' });
  });

  it('learn skills', async () => {
    const [person] = (await dataOf(studio.owner.GET('/v1/staff'))).items;
    if (!person) throw new Error('nobody works here');
    const learned = await dataOf(
      studio.owner.PATCH('/v1/staff/{staffId}', {
        params: { path: { staffId: person.id }, header: { 'If-Match': `"${person.version}"` } },
        body: { skills: ['shoe_work'] },
      }),
    );
    expect(learned).toEqual({ ...person, skills: ['shoe_work'], version: person.version + 1 });
  });
});

describe('lists', () => {
  const post = (name: string) => ({ body: { name } });
  const password = 'salt wind over the harbour';
  type Kind = 'services' | 'sites' | 'rooms' | 'benches' | 'staff';
  const lists: readonly [Kind, (name: string) => Promise<{ id: string }>][] = [
    [
      'services',
      (name) => dataOf(studio.owner.POST('/v1/services', { body: { name, durationMinutes: 30 } })),
    ],
    ['sites', (name) => dataOf(studio.owner.POST('/v1/sites', post(name)))],
    ['rooms', (name) => dataOf(studio.owner.POST('/v1/rooms', post(name)))],
    ['benches', (name) => dataOf(studio.owner.POST('/v1/benches', post(name)))],
    [
      'staff',
      (name) =>
        dataOf(
          studio.owner.POST('/v1/staff', {
            body: { email: `${name}@staff.example`, displayName: name, password, roles: ['front_desk'] },
          }),
        ),
    ],
  ];

  it.each(lists)('of %s run page after page, though more comes in meanwhile', async (kind, add) => {
    const get = async (query: { limit: number; after?: string }) => {
      const { items, next } = await dataOf(studio.owner.GET(`/v1/${kind}`, { params: { query } }));
      return { ids: items.map(({ id }) => id), next };
    };
    for (const name of ['zz-one', 'aa-two', 'mm-three']) await add(`${kind}-${name}`);
    const { ids: known } = await get({ limit: 200 });
    const first = await get({ limit: 2 });
    const later = await add(`${kind}-00-later`);
    const seen = [...first.ids];
    for (let after = first.next; after !== null;) {
      const page = await get({ limit: 2, after });
      seen.push(...page.ids);
      after = page.next;
    }
    expect(seen).toEqual([...known, later.id]);
  });
});

describe('an exception in opening hours', () => {
  it('is changed in place: its days, its hours, its reason', async () => {
    const made = await dataOf(
      studio.owner.POST('/v1/hours-exceptions', {
        body: {
          kind: 'open',
          reason: 'other_hours',
          firstDay: '2090-06-01',
          lastDay: '2090-06-02',
          from: '09:00',
          until: '12:00',
        },
      }),
    );
    const patch = (version: number, body: components['schemas']['UpdateHoursExceptionRequest']) =>
      studio.desk.PATCH('/v1/hours-exceptions/{hoursExceptionId}', {
        params: { path: { hoursExceptionId: made.id }, header: { 'If-Match': `"${version}"` } },
        body,
      });
    const changed = await dataOf(patch(1, { lastDay: '2090-06-03', until: '14:00' }));
    expect(changed).toMatchObject({
      firstDay: '2090-06-01',
      lastDay: '2090-06-03',
      from: '09:00',
      until: '14:00',
      version: 2,
    });
    expect((await patch(1, { lastDay: '2090-06-04' })).response.status).toBe(412);
    expect((await patch(2, { until: null })).error).toMatchObject({ errors: [{ field: 'until' }] });
    expect((await patch(2, { until: '08:00' })).error).toMatchObject({ errors: [{ field: 'until' }] });
    expect((await patch(2, { lastDay: '2090-05-01' })).error).toMatchObject({
      errors: [{ field: 'lastDay' }],
    });
    const closed = { kind: 'closed', reason: 'closure', from: null, until: null } as const;
    expect(await dataOf(patch(2, closed))).toMatchObject({
      kind: 'closed',
      from: null,
      until: null,
      version: 3,
    });
  });
});

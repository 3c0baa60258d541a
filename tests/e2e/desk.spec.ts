import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf, type components } from '@studio/api-client';
import { takeOnClient } from '../helpers/rider.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';

let api: TestApi;
let studio: TestStudio;
let clientId: string;

beforeAll(async () => {
  api = await startTestApi();
  studio = await openTestStudio(api);
  ({ clientId } = await takeOnClient(studio.owner));
});
afterAll(() => api.close());

const wish = (startsAt: string): components['schemas']['CreateAppointmentRequest'] => ({
  clientId,
  serviceId: studio.serviceId,
  roomId: studio.roomId,
  fitterId: studio.owner.signedIn.id,
  startsAt,
});
const book = (startsAt: string) => dataOf(studio.desk.POST('/v1/appointments', { body: wish(startsAt) }));

describe('booking', () => {
  it('gives one hour to one of 200 who ask for it at once', async () => {
    const asked = await Promise.all(
      Array.from({ length: 200 }, () =>
        studio.desk.POST('/v1/appointments', { body: wish('2090-05-02T09:00:00Z') }),
      ),
    );
    const statuses = asked.map(({ response }) => response.status);
    expect(statuses.filter((status) => status === 201)).toHaveLength(1);
    expect(statuses.filter((status) => status === 409)).toHaveLength(199);
    const range = { from: '2090-05-02T00:00:00Z', to: '2090-05-03T00:00:00Z' };
    const { items } = await dataOf(studio.desk.GET('/v1/appointments', { params: { query: range } }));
    expect(items).toHaveLength(1);
  });

  it('tells which of fitter and room is taken and when, and no name', async () => {
    await book('2090-05-03T09:00:00Z');
    const { error } = await studio.desk.POST('/v1/appointments', { body: wish('2090-05-03T09:30:00+00:00') });
    expect(error).toMatchObject({
      code: 'appointments.overlap',
      clash: { resource: 'fitter', startsAt: '2090-05-03T09:00:00.000Z', endsAt: '2090-05-03T10:00:00.000Z' },
    });
    expect(JSON.stringify(error)).not.toContain('Rider');
  });

  it('lets one visit begin the instant another ends', async () => {
    await book('2090-05-04T09:00:00Z');
    expect((await book('2090-05-04T10:00:00Z')).state).toBe('booked');
    expect((await book('2090-05-04T08:00:00Z')).state).toBe('booked');
  });

  it('guards the room where the fitter is free', async () => {
    const body = {
      email: 'second@fitters.example',
      displayName: 'Second',
      password: 'a password for tests only',
    };
    const second = await dataOf(studio.owner.POST('/v1/staff', { body: { ...body, roles: ['fitter'] } }));
    await book('2090-05-05T09:00:00Z');
    const { error } = await studio.desk.POST('/v1/appointments', {
      body: { ...wish('2090-05-05T09:00:00Z'), fitterId: second.id },
    });
    expect(error).toMatchObject({ code: 'appointments.overlap', clash: { resource: 'room' } });
  });

  it('refuses a time that has passed, and somebody who does not fit', async () => {
    const past = await studio.desk.POST('/v1/appointments', { body: wish('2020-01-01T09:00:00Z') });
    expect(past.error).toMatchObject({ status: 422, code: 'appointments.in-the-past' });
    const { items: staff } = await dataOf(studio.owner.GET('/v1/staff'));
    const deskId = staff.find(({ roles }) => roles.includes('front_desk'))?.id ?? '';
    const body = { ...wish('2090-06-01T09:00:00Z'), fitterId: deskId };
    expect((await studio.desk.POST('/v1/appointments', { body })).error).toMatchObject({
      code: 'appointments.not-a-fitter',
    });
  });
});

const at = (id: string, version: number) => ({
  params: { path: { appointmentId: id }, header: { 'If-Match': `"${version}"` } },
});

describe('moving and cancelling', () => {
  it('frees the old hour and takes the new one', async () => {
    const { id, version } = await book('2090-06-02T09:00:00Z');
    const moved = await dataOf(
      studio.desk.PATCH('/v1/appointments/{appointmentId}', {
        ...at(id, version),
        body: { startsAt: '2090-06-02T09:30:00Z' },
      }),
    );
    expect(moved).toMatchObject({
      startsAt: '2090-06-02T09:30:00.000Z',
      endsAt: '2090-06-02T10:30:00.000Z',
      version: 2,
    });
    const taken = await studio.desk.POST('/v1/appointments', { body: wish('2090-06-02T10:00:00Z') });
    expect(taken.response.status).toBe(409);
    const cancelled = await dataOf(
      studio.desk.POST('/v1/appointments/{appointmentId}/cancellation', {
        ...at(id, 2),
        body: { reason: 'Ill.' },
      }),
    );
    expect(cancelled.state).toBe('cancelled');
    expect((await book('2090-06-02T09:30:00Z')).state).toBe('booked');
  });

  it('lets one of two who change the same version through', async () => {
    const { id, version } = await book('2090-06-03T09:00:00Z');
    const both = await Promise.all(
      ['2090-06-03T12:00:00Z', '2090-06-03T15:00:00Z'].map((startsAt) =>
        studio.desk.PATCH('/v1/appointments/{appointmentId}', { ...at(id, version), body: { startsAt } }),
      ),
    );
    expect(both.map(({ response }) => response.status).sort()).toEqual([200, 412]);
  });

  it('cannot change what is cancelled', async () => {
    const { id, version } = await book('2090-06-04T09:00:00Z');
    const cancel = (seen: number) =>
      studio.desk.POST('/v1/appointments/{appointmentId}/cancellation', {
        ...at(id, seen),
        body: { reason: 'Ill.' },
      });
    await dataOf(cancel(version));
    expect((await cancel(version + 1)).error).toMatchObject({
      ...{ status: 409, code: 'appointments.not-possible' },
      ...{ state: 'cancelled', allowed: [] },
    });
  });
});

describe('clients', () => {
  it('are paged by a cursor that stays put while others are added', async () => {
    const other = await openTestStudio(api);
    const create = (n: number) =>
      dataOf(other.desk.POST('/v1/clients', { body: { givenName: `N${n}`, familyName: 'Page' } }));
    for (let n = 0; n < 5; n += 1) await create(n);
    const first = await dataOf(other.desk.GET('/v1/clients', { params: { query: { limit: 3 } } }));
    await create(5);
    const after = first.next ?? '';
    const second = await dataOf(other.desk.GET('/v1/clients', { params: { query: { limit: 3, after } } }));
    expect([...first.items, ...second.items].map(({ givenName }) => givenName)).toEqual([
      'N0',
      'N1',
      'N2',
      'N3',
      'N4',
      'N5',
    ]);
    expect(second.next).toBeNull();
  });

  it('are found by the beginning of a name', async () => {
    await dataOf(studio.desk.POST('/v1/clients', { body: { givenName: 'Żaneta', familyName: 'O’Malley%' } }));
    const find = async (name: string) =>
      (await dataOf(studio.desk.GET('/v1/clients', { params: { query: { name } } }))).items.length;
    expect(await find('żan')).toBe(1);
    expect(await find('o’m')).toBe(1);
    expect(await find('%')).toBe(0);
  });

  it('are changed by the one who saw the newest version', async () => {
    const { id } = await dataOf(
      studio.desk.POST('/v1/clients', { body: { givenName: 'A', familyName: 'B', phone: '1' } }),
    );
    const change = (body: components['schemas']['UpdateClientRequest']) =>
      studio.desk.PATCH('/v1/clients/{clientId}', {
        params: { path: { clientId: id }, header: { 'If-Match': '"1"' } },
        body,
      });
    expect(await dataOf(change({ phone: null }))).toMatchObject({ phone: null, familyName: 'B', version: 2 });
    expect((await change({ phone: '2' })).error).toMatchObject({ status: 412, code: 'version.stale' });
  });

  it('carry tags, a note and whether they may be contacted', async () => {
    const more = { tags: ['team_harbour'], note: 'Parks in the yard.', doNotContact: true };
    const client = await dataOf(
      studio.desk.POST('/v1/clients', { body: { givenName: 'T', familyName: 'Tagged', ...more } }),
    );
    expect(client).toMatchObject({ ...more, guardianId: null });
    const { items } = await dataOf(
      studio.desk.GET('/v1/clients', { params: { query: { tag: 'team_harbour' } } }),
    );
    expect(items.map(({ id }) => id)).toEqual([client.id]);
  });

  it('who are minors need a guardian of age to consent for them', async () => {
    const { now } = await dataOf(studio.owner.POST('/v1/test-clock/advance', { body: { seconds: 1 } }));
    const day = (yearsAgo: number, days: number) => {
      const date = new Date(now);
      date.setUTCFullYear(date.getUTCFullYear() - yearsAgo, date.getUTCMonth(), date.getUTCDate() + days);
      return date.toISOString().slice(0, 10);
    };
    const create = (body: Partial<components['schemas']['CreateClientRequest']>) =>
      studio.desk.POST('/v1/clients', { body: { givenName: 'M', familyName: 'Minor', ...body } });
    const consent = (clientId_: string) =>
      studio.desk.POST('/v1/clients/{clientId}/consents', {
        params: { path: { clientId: clientId_ } },
        body: { kind: 'data', textVersion: '1' },
      });
    const ofAge = await dataOf(create({ bornOn: day(18, -2) }));
    expect((await dataOf(consent(ofAge.id))).guardianId).toBeNull();
    const minor = await dataOf(create({ bornOn: day(18, 2) }));
    expect((await consent(minor.id)).error).toMatchObject({ status: 409, code: 'clients.guardian-missing' });
    expect((await create({ guardianId: minor.id })).error).toMatchObject({
      ...{ status: 422, code: 'clients.guardian-is-no-adult' },
    });
    const guarded = await dataOf(
      studio.desk.PATCH('/v1/clients/{clientId}', {
        params: { path: { clientId: minor.id }, header: { 'If-Match': '"1"' } },
        body: { guardianId: ofAge.id },
      }),
    );
    expect(guarded.guardianId).toBe(ofAge.id);
    expect((await dataOf(consent(minor.id))).guardianId).toBe(ofAge.id);
  });

  it('are told apart from those who may be the same person', async () => {
    const other = await openTestStudio(api);
    const create = async (body: Partial<components['schemas']['CreateClientRequest']>) =>
      (
        await dataOf(
          other.desk.POST('/v1/clients', { body: { givenName: 'Marta', familyName: 'Ferreira', ...body } }),
        )
      ).id;
    const one = await create({
      email: 'marta@riders.example',
      phone: '+45 20 12 34 56',
      bornOn: '1984-02-29',
    });
    const typo = await create({ familyName: 'Fereira', phone: '+4520123456' });
    const named = await create({ givenName: 'MARTA' });
    const child = await create({ givenName: 'Otto', familyName: 'Lind', email: 'marta@riders.example' });
    const married = await create({
      familyName: 'Lindqvist',
      email: 'marta@riders.example',
      bornOn: '1984-02-29',
    });
    const of = { params: { path: { clientId: one } } };
    const found = await dataOf(other.desk.GET('/v1/clients/{clientId}/likely-duplicates', of));
    expect(found.map(({ client, same }) => [client.id, same])).toEqual([
      [married, ['email', 'birth_date']],
      [named, ['name']],
      [typo, ['phone']],
    ]);
    expect(found.map(({ client }) => client.id)).not.toContain(child);
  });

  it('give a consent once, take it back, and give it again', async () => {
    const { id } = await dataOf(
      studio.desk.POST('/v1/clients', { body: { givenName: 'C', familyName: 'D' } }),
    );
    const of = { params: { path: { clientId: id } } };
    const give = () =>
      studio.desk.POST('/v1/clients/{clientId}/consents', {
        ...of,
        body: { kind: 'contact', textVersion: '1' },
      });
    await dataOf(give());
    expect((await give()).error).toMatchObject({ status: 409, code: 'clients.consent-stands' });
    const withdraw = { params: { path: { clientId: id, kind: 'contact' as const } } };
    await dataOf(studio.desk.POST('/v1/clients/{clientId}/consents/{kind}/withdrawal', withdraw));
    await dataOf(give());
    const consents = await dataOf(studio.desk.GET('/v1/clients/{clientId}/consents', of));
    expect(consents.map(({ withdrawnAt }) => withdrawnAt === null)).toEqual([false, true]);
  });
});

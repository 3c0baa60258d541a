import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf, type components } from '@studio/api-client';
import { nothingWrong, screen, takeOnClient } from '../helpers/rider.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';

let api: TestApi;
let studio: TestStudio;
let clientId: string;
let hour = 0;

beforeAll(async () => {
  api = await startTestApi();
  studio = await openTestStudio(api);
  ({ clientId } = await takeOnClient(studio.owner));
});
afterAll(() => api.close());

type Appointment = components['schemas']['AppointmentResponse'];
type Wish = Partial<components['schemas']['CreateAppointmentRequest']>;

/** An hour nobody else asks for. */
const freeHour = (): string => new Date(Date.UTC(2089, 0, 1, 2 * hour++)).toISOString();
const ask = (wish: Wish = {}) =>
  studio.desk.POST('/v1/appointments', {
    body: {
      ...{ clientId, serviceId: studio.serviceId, roomId: studio.roomId },
      ...{ fitterId: studio.owner.signedIn.id, startsAt: freeHour() },
      ...wish,
    },
  });
const book = (wish?: Wish): Promise<Appointment> => dataOf(ask(wish));

const steps = ['booking', 'cancellation', 'check-in', 'no-show', 'completion', 'reinstatement'] as const;
type Step = (typeof steps)[number];
const act = (step: Step, { id, version }: Pick<Appointment, 'id' | 'version'>) => {
  const of = { params: { path: { appointmentId: id }, header: { 'If-Match': `"${version}"` } } };
  return step === 'cancellation'
    ? studio.desk.POST('/v1/appointments/{appointmentId}/cancellation', { ...of, body: { reason: 'Ill.' } })
    : studio.desk.POST(`/v1/appointments/{appointmentId}/${step}`, of);
};
const pass = (seconds: number) => dataOf(studio.owner.POST('/v1/test-clock/advance', { body: { seconds } }));
const read = (id: string) =>
  dataOf(studio.desk.GET('/v1/appointments/{appointmentId}', { params: { path: { appointmentId: id } } }));

describe('a hold', () => {
  it('keeps the time until it is booked', async () => {
    const held = await book({ holdMinutes: 10 });
    expect(held).toMatchObject({ state: 'held', allowed: ['book', 'move', 'cancel'] });
    expect(held.heldUntil).not.toBeNull();
    expect((await ask({ startsAt: held.startsAt })).error).toMatchObject({ code: 'appointments.overlap' });
    const booked = await dataOf(act('booking', held));
    expect(booked).toMatchObject({ state: 'booked', heldUntil: null, version: 2 });
  });

  it('releases its time by itself when it runs out', async () => {
    const held = await book({ holdMinutes: 10 });
    await pass(601);
    expect(await read(held.id)).toMatchObject({ state: 'lapsed', allowed: [] });
    expect((await act('booking', held)).error).toMatchObject({
      ...{ status: 409, code: 'appointments.not-possible', state: 'lapsed', allowed: [] },
    });
    expect((await book({ startsAt: held.startsAt })).state).toBe('booked');
    const history = await dataOf(
      studio.desk.GET('/v1/appointments/{appointmentId}/history', {
        params: { path: { appointmentId: held.id } },
      }),
    );
    expect(history.map(({ action, state, changedBy }) => [action, state, changedBy !== null])).toEqual([
      ['hold', 'held', true],
      ['lapse', 'lapsed', false],
    ]);
  });
});

describe('states', () => {
  it('follow the table; everything else is refused with what is possible', async () => {
    /** How to come to a state, and what may be done there. */
    const states: [Step[], Wish, string, Step[]][] = [
      [[], { holdMinutes: 60 }, 'held', ['booking', 'cancellation']],
      [[], {}, 'booked', ['cancellation', 'check-in', 'no-show']],
      [['check-in'], {}, 'checked_in', ['completion', 'reinstatement']],
      [['check-in', 'completion'], {}, 'completed', []],
      [['no-show'], {}, 'no_show', ['reinstatement']],
      [['cancellation'], {}, 'cancelled', []],
      [['check-in', 'reinstatement'], {}, 'booked', ['cancellation', 'check-in', 'no-show']],
    ];
    for (const [way, wish, state, possible] of states) {
      for (const step of steps) {
        const soon = { startsAt: new Date(Date.parse((await pass(1)).now) + 60_000).toISOString() };
        let now = await book({ ...soon, ...wish });
        const needsTime = [...way, step].includes('no-show');
        if (needsTime) await pass(120);
        for (const before of way) now = await dataOf(act(before, now));
        expect(now.state).toBe(state);
        const { error, response } = await act(step, now);
        if (possible.includes(step)) expect([state, step, response.status]).toEqual([state, step, 200]);
        else
          expect(error).toMatchObject({
            ...{ status: 409, code: 'appointments.not-possible', state, allowed: now.allowed },
          });
        await pass(2 * 3600);
      }
    }
  });

  it('do not know a no-show before the visit', async () => {
    expect((await act('no-show', await book())).error).toMatchObject({ code: 'appointments.not-yet' });
  });

  it('are changed from the newest version only, and the version must be named', async () => {
    const first = await book();
    await dataOf(act('check-in', first));
    expect((await act('completion', first)).error).toMatchObject({ status: 412, code: 'version.stale' });
    const bare = await studio.desk.POST('/v1/appointments/{appointmentId}/completion', {
      params: { path: { appointmentId: first.id } } as never,
    });
    expect(bare.error).toMatchObject({ status: 428, code: 'version.missing' });
  });
});

describe('a cancellation', () => {
  it('is late within the notice of the service, and says why and by whom', async () => {
    const now = Date.parse((await pass(1)).now);
    const late = await book({ startsAt: new Date(now + 23 * 3_600_000).toISOString() });
    const early = await book({ startsAt: new Date(now + 25 * 3_600_000).toISOString() });
    expect((await dataOf(act('cancellation', late))).cancellation).toEqual({
      ...{ reason: 'Ill.', by: 'client', late: true },
    });
    expect((await dataOf(act('cancellation', early))).cancellation?.late).toBe(false);
  });
});

describe('history', () => {
  it('tells who did what and how it stood', async () => {
    const { id } = await book();
    const startsAt = freeHour();
    await dataOf(
      studio.owner.PATCH('/v1/appointments/{appointmentId}', {
        params: { path: { appointmentId: id }, header: { 'If-Match': '"1"' } },
        body: { startsAt },
      }),
    );
    await dataOf(act('cancellation', { id, version: 2 }));
    const of = { params: { path: { appointmentId: id } } };
    const history = await dataOf(studio.desk.GET('/v1/appointments/{appointmentId}/history', of));
    expect(history.map(({ action, state, reason }) => [action, state, reason])).toEqual([
      ['create', 'booked', null],
      ['move', 'booked', null],
      ['cancel', 'cancelled', 'Ill.'],
    ]);
    expect(history[1]).toMatchObject({ startsAt, changedBy: studio.owner.signedIn.id });
    expect(history[0]?.changedBy).not.toBe(studio.owner.signedIn.id);
  });
});

describe('what a service asks for', () => {
  it('must be in hand at the check-in, not before', async () => {
    const { id: serviceId } = await dataOf(
      studio.owner.POST('/v1/services', {
        body: { name: 'Asking', durationMinutes: 30, prerequisites: ['intake', 'clearance'] },
      }),
    );
    const client = await takeOnClient(studio.owner, 'asked@riders.example');
    const first = await book({ clientId: client.clientId, serviceId });
    expect((await act('check-in', first)).error).toMatchObject({
      ...{ status: 409, code: 'appointments.prerequisites-missing', missing: ['intake', 'clearance'] },
    });
    await screen(studio.owner, client.clientId, { ...nothingWrong, chest_pain: 'yes' });
    expect((await act('check-in', first)).error).toMatchObject({ missing: ['clearance'] });

    const well = await takeOnClient(studio.owner, 'well@riders.example');
    await screen(studio.owner, well.clientId);
    const second = await book({ clientId: well.clientId, serviceId });
    expect((await dataOf(act('check-in', second))).state).toBe('checked_in');
  });

  it('is a skill, equipment and a bench', async () => {
    const { owner } = studio;
    const site = await dataOf(owner.POST('/v1/sites', { body: { name: 'Elsewhere' } }));
    const { id: serviceId } = await dataOf(
      owner.POST('/v1/services', {
        body: {
          ...{ name: 'Needing', durationMinutes: 30, curingMinutes: 60 },
          ...{ requiredSkills: ['pressing'], requiredEquipment: ['press'] },
        },
      }),
    );
    const refused = async (field: string) => {
      expect((await ask({ serviceId })).error).toMatchObject({ status: 422, errors: [{ field }] });
    };
    await refused('fitterId');
    const [me] = (await dataOf(owner.GET('/v1/staff'))).items.filter(({ id }) => id === owner.signedIn.id);
    await dataOf(
      owner.PATCH('/v1/staff/{staffId}', {
        params: { path: { staffId: me?.id ?? '' }, header: { 'If-Match': `"${me?.version ?? 0}"` } },
        body: { skills: ['pressing'] },
      }),
    );
    await refused('roomId');
    await dataOf(
      owner.PATCH('/v1/rooms/{roomId}', {
        params: { path: { roomId: studio.roomId }, header: { 'If-Match': '"1"' } },
        body: { equipment: ['press', 'lamp'] },
      }),
    );
    const noBench = { status: 409, code: 'appointments.no-bench-free' };
    expect((await ask({ serviceId })).error).toMatchObject(noBench);
    const far = await dataOf(owner.POST('/v1/benches', { body: { name: 'Far', siteId: site.id } }));
    expect((await ask({ serviceId, benchId: far.id })).error).toMatchObject({
      ...{ code: 'appointments.not-suited', errors: [{ field: 'benchId' }] },
    });
    const near = await dataOf(owner.POST('/v1/benches', { body: { name: 'Near' } }));
    const startsAt = freeHour();
    const booked = await book({ serviceId, startsAt });
    expect(booked).toMatchObject({
      benchId: near.id,
      curedAt: new Date(Date.parse(startsAt) + 90 * 60_000).toISOString(),
    });
    const soonAfter = new Date(Date.parse(startsAt) + 45 * 60_000).toISOString();
    expect((await ask({ serviceId, startsAt: soonAfter })).error).toMatchObject(noBench);
    expect((await ask({ serviceId, startsAt: soonAfter, benchId: near.id })).error).toMatchObject({
      ...{ code: 'appointments.overlap', clash: { resource: 'bench' } },
    });
  });

  it('is time before and after the visit', async () => {
    const { id: serviceId } = await dataOf(
      studio.owner.POST('/v1/services', {
        body: { name: 'Buffered', durationMinutes: 60, bufferBeforeMinutes: 10, bufferAfterMinutes: 20 },
      }),
    );
    await book({ serviceId, startsAt: '2088-05-01T10:00:00Z' });
    const at = async (time: string) => (await ask({ startsAt: `2088-05-01T${time}:00Z` })).response.status;
    expect([await at('08:51'), await at('08:50'), await at('11:19'), await at('11:20')]).toEqual([
      409, 201, 409, 201,
    ]);
  });
});

describe('a series', () => {
  const visits = (...starts: string[]) =>
    starts.map((startsAt) => ({
      ...{ serviceId: studio.serviceId, roomId: studio.roomId, fitterId: studio.owner.signedIn.id, startsAt },
    })) as components['schemas']['VisitRequest'][];
  const series = (...starts: string[]) =>
    studio.desk.POST('/v1/appointment-series', { body: { clientId, visits: visits(...starts) } });

  it('is booked whole or not at all', async () => {
    const [first, taken, third] = [freeHour(), freeHour(), freeHour()] as const;
    await book({ startsAt: taken });
    expect((await series(first, taken, third)).error).toMatchObject({
      ...{ code: 'appointments.overlap', clash: { startsAt: taken } },
    });
    const made = await dataOf(series(first, third));
    expect(made.visits.map(({ seriesId, seriesPosition }) => [seriesId, seriesPosition])).toEqual([
      [made.id, 1],
      [made.id, 2],
    ]);
    const of = { params: { path: { seriesId: made.id } } };
    expect(await dataOf(studio.desk.GET('/v1/appointment-series/{seriesId}', of))).toEqual(made);
  });

  it('keeps its order, when it is booked and when a visit is moved', async () => {
    const [first, second] = [freeHour(), freeHour()] as const;
    expect((await series(second, first)).error).toMatchObject({
      ...{ status: 422, code: 'appointments.series-out-of-order', errors: [{ field: 'visits.1.startsAt' }] },
    });
    const made = await dataOf(series(first, second));
    const moved = await studio.desk.PATCH('/v1/appointments/{appointmentId}', {
      params: { path: { appointmentId: made.visits[0]?.id ?? '' }, header: { 'If-Match': '"1"' } },
      body: { startsAt: freeHour() },
    });
    expect(moved.error).toMatchObject({ code: 'appointments.series-out-of-order' });
  });
});

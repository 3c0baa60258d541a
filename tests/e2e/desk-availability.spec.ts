import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf, type components } from '@studio/api-client';
import { takeOnClient } from '../helpers/rider.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';

let api: TestApi;
beforeAll(async () => {
  api = await startTestApi();
});
afterAll(() => api.close());

type Slot = components['schemas']['SlotResponse'];

/** Sundays on which the clock is changed, by an hour, north and south; 2090 by today's rules. */
const changes = [
  { timeZone: 'Europe/Copenhagen', day: '2090-03-26', hours: 23 },
  { timeZone: 'America/New_York', day: '2090-11-05', hours: 25 },
  { timeZone: 'Pacific/Auckland', day: '2090-04-02', hours: 25 },
] as const;

const nextDay = (day: string, by = 1): string =>
  new Date(Date.parse(day) + by * 86_400_000).toISOString().slice(0, 10);

/** The midnight before the first slot of a day whose clock changes only later. */
const localMidnight = (first?: Slot): string =>
  `${first?.localStart.slice(0, 10)}T00:00:00${first?.localStart.slice(19, 25)}`;

interface Scene extends TestStudio {
  readonly clientId: string;
  readonly service: components['schemas']['ServiceResponse'];
  readonly fitters: readonly string[];
  readonly rooms: readonly string[];
}

/** Night and day at a site: two fitters, two rooms, a bench, a service with buffers that cures. */
async function scene(timeZone: string): Promise<Scene> {
  const studio = await openTestStudio(api);
  const { owner } = studio;
  const { clientId } = await takeOnClient(owner);
  const site = await dataOf(owner.POST('/v1/sites', { body: { name: 'Away', timeZone } }));
  const person = (name: string, skills: string[]) => ({
    ...{ email: `${name}@fitters.example`, displayName: name, password: 'a password for tests only' },
    ...{ roles: ['fitter' as const], skills },
  });
  const fitters = [];
  for (const name of ['one', 'two', 'unskilled']) {
    const skills = name === 'unskilled' ? [] : ['shoe_work'];
    fitters.push((await dataOf(owner.POST('/v1/staff', { body: person(name, skills) }))).id);
  }
  const rooms = [];
  for (const name of ['press', 'other press', 'bare']) {
    const equipment = name === 'bare' ? [] : ['heat_press'];
    rooms.push((await dataOf(owner.POST('/v1/rooms', { body: { name, siteId: site.id, equipment } }))).id);
  }
  await dataOf(owner.POST('/v1/benches', { body: { name: 'Bench', siteId: site.id } }));
  const service = await dataOf(
    owner.POST('/v1/services', {
      body: {
        ...{ name: 'Shoe work', durationMinutes: 40, bufferBeforeMinutes: 5, bufferAfterMinutes: 10 },
        ...{ curingMinutes: 90, requiredSkills: ['shoe_work'], requiredEquipment: ['heat_press'] },
      },
    }),
  );
  const week = { weekdays: [1, 2, 3, 4, 5, 6, 7], validFrom: '2026-01-01' };
  const hours = (body: Partial<components['schemas']['CreateWeeklyHoursRequest']>) =>
    dataOf(owner.POST('/v1/weekly-hours', { body: { ...week, from: '00:00', until: '24:00', ...body } }));
  await hours({ siteId: site.id, until: '05:00' });
  await hours({ siteId: site.id, from: '22:00' });
  await hours({ staffId: fitters[0] ?? '', breaks: [{ from: '03:30', until: '04:00' }] });
  await hours({ staffId: fitters[1] ?? '', from: '01:00', until: '04:30', atSiteId: site.id });
  return { ...studio, clientId, service, fitters, rooms };
}

describe.each(changes)('on the day the clock is changed in $timeZone', ({ timeZone, day, hours }) => {
  let here: Scene;
  beforeAll(async () => {
    here = await scene(timeZone);
  });

  const offered = async (stepMinutes?: number): Promise<Slot[]> => {
    const query = { serviceId: here.service.id, firstDay: day, lastDay: day };
    const { days } = await dataOf(
      here.desk.GET('/v1/availability', {
        params: { query: { ...query, ...(stepMinutes !== undefined && { stepMinutes }) } },
      }),
    );
    return days.flatMap(({ slots }) => slots);
  };
  const book = (startsAt: string, fitterId = '', roomId = '') =>
    here.desk.POST('/v1/appointments', {
      body: { clientId: here.clientId, serviceId: here.service.id, startsAt, fitterId, roomId },
    });

  it('tells the length of the day and its hours', async () => {
    const staffId = here.fitters[0] ?? '';
    const [site] = (await dataOf(here.owner.GET('/v1/sites'))).items.filter(({ name }) => name === 'Away');
    const query = { staffId, siteId: site?.id ?? '', firstDay: day, lastDay: day };
    const open = await dataOf(here.desk.GET('/v1/opening-hours', { params: { query } }));
    expect(open.timeZone).toBe(timeZone);
    expect(open.days).toMatchObject([
      {
        day,
        hoursInDay: hours,
        open: [
          { localStart: expect.stringContaining(`${day}T00:00:00`) },
          {
            localStart: expect.stringContaining(`${day}T04:00:00`),
            localEnd: expect.stringContaining('T05:00:00'),
          },
          {
            localStart: expect.stringContaining('T22:00:00'),
            localEnd: expect.stringContaining(`${nextDay(day)}T00:00:00`),
          },
        ],
      },
    ]);
  });

  it('offers exactly what can be booked: every quarter of an hour is tried with every fitter and room that will do, every hour with all', async () => {
    for (const at of ['T03:00:00Z', 'T12:10:00Z', 'T07:25:00Z']) {
      await book(`${day}${at}`, here.fitters[0], here.rooms[0]);
    }
    const slots = await offered();
    expect(slots.length).toBeGreaterThan(5);
    const wanted = new Set(
      slots.flatMap(({ startsAt, fitterIds, roomIds }) =>
        fitterIds.flatMap((fitterId) => roomIds.map((roomId) => `${startsAt} ${fitterId} ${roomId}`)),
      ),
    );
    // An hour before the day begins there to an hour after it ends.
    const from = Date.parse(localMidnight(slots[0])) - 3_600_000;
    const booked = new Set<string>();
    for (let at = from; at <= from + (hours + 2) * 3_600_000; at += 15 * 60_000) {
      const startsAt = new Date(at).toISOString();
      const all = at % 3_600_000 === 0;
      for (const fitterId of all ? here.fitters : here.fitters.slice(0, 2)) {
        for (const roomId of all ? here.rooms : here.rooms.slice(0, 2)) {
          const { data } = await book(startsAt, fitterId, roomId);
          if (!data) continue;
          if (data.localStart.slice(0, 10) === day) booked.add(`${startsAt} ${fitterId} ${roomId}`);
          await dataOf(
            here.desk.POST('/v1/appointments/{appointmentId}/cancellation', {
              params: { path: { appointmentId: data.id }, header: { 'If-Match': '"1"' } },
              body: { reason: 'Only tried.' },
            }),
          );
        }
      }
    }
    expect([...booked].sort()).toEqual([...wanted].sort());
  }, 120_000);

  it('gives the first of all, and of each fitter', async () => {
    const query = { serviceId: here.service.id, firstDay: day };
    const first = await dataOf(here.desk.GET('/v1/availability/first', { params: { query } }));
    const [slot] = await offered();
    expect(first.first).toEqual(slot);
    expect(first.byFitter.map(({ fitterId }) => fitterId).sort()).toEqual(here.fitters.slice(0, 2).sort());
  });
});

describe('slots', () => {
  it('keep to lead time and horizon, closures and leave, and to where a person works', async () => {
    const studio = await openTestStudio(api);
    const { owner, desk, serviceId } = studio;
    const fitterId = owner.signedIn.id;
    const now = Date.parse(
      (await dataOf(owner.POST('/v1/test-clock/advance', { body: { seconds: 1 } }))).now,
    );
    const today = new Date(now).toISOString().slice(0, 10);
    await dataOf(
      owner.PATCH('/v1/services/{serviceId}', {
        params: { path: { serviceId }, header: { 'If-Match': '"1"' } },
        body: { leadTimeMinutes: 24 * 60, horizonDays: 10 },
      }),
    );
    const week = { weekdays: [1, 2, 3, 4, 5, 6, 7], from: '09:00', until: '12:00', validFrom: '2026-01-01' };
    await dataOf(owner.POST('/v1/weekly-hours', { body: { ...week, staffId: fitterId } }));
    const list = async (query: object = {}) =>
      (
        await dataOf(
          desk.GET('/v1/availability', {
            params: { query: { serviceId, firstDay: today, lastDay: nextDay(today, 20), ...query } },
          }),
        )
      ).days;
    const all = await list();
    const starts = all.flatMap(({ slots }) => slots.map(({ startsAt }) => Date.parse(startsAt)));
    expect(Math.min(...starts)).toBeGreaterThanOrEqual(now + 86_400_000);
    expect(Math.max(...starts)).toBeLessThan(now + 10 * 86_400_000 + 60_000);

    const closed = all[2]?.day ?? '';
    const away = all[4]?.day ?? '';
    const exception = (body: Partial<components['schemas']['CreateHoursExceptionRequest']>) =>
      dataOf(
        desk.POST('/v1/hours-exceptions', {
          body: { kind: 'closed', reason: 'closure', firstDay: closed, lastDay: closed, ...body },
        }),
      );
    await exception({});
    const leave = await exception({ reason: 'leave', staffId: fitterId, firstDay: away, lastDay: away });
    const without = (await list()).map((item) => item.day);
    expect(all.map((item) => item.day).filter((item) => !without.includes(item))).toEqual([closed, away]);

    const startsAt = all[4]?.slots[0]?.startsAt ?? '';
    const { clientId } = await takeOnClient(owner);
    const wish = { clientId, serviceId, fitterId, roomId: studio.roomId, startsAt };
    expect((await desk.POST('/v1/appointments', { body: wish })).error).toMatchObject({
      ...{ status: 422, code: 'appointments.outside-hours' },
      errors: [{ field: 'startsAt' }],
    });
    const even = await dataOf(desk.POST('/v1/appointments', { body: { ...wish, evenOutsideHours: true } }));
    expect(even.state).toBe('booked');
    await dataOf(
      desk.DELETE('/v1/hours-exceptions/{hoursExceptionId}', {
        params: { path: { hoursExceptionId: leave.id }, header: { 'If-Match': '"1"' } },
      }),
    );
    expect((await list()).map((item) => item.day)).toContain(away);

    const site = await dataOf(owner.POST('/v1/sites', { body: { name: 'Second' } }));
    await dataOf(owner.POST('/v1/rooms', { body: { name: 'There', siteId: site.id } }));
    expect((await list({ siteId: site.id })).length).toBeGreaterThan(0);
    await dataOf(
      owner.POST('/v1/weekly-hours', {
        body: { ...week, from: '13:00', until: '16:00', staffId: fitterId, atSiteId: site.id },
      }),
    );
    const there = (await list({ siteId: site.id }))[0]?.slots.map(({ localStart }) =>
      localStart.slice(11, 16),
    );
    expect(there).toContain('15:00');
    // Of the first day little may be left, as late as it is now.
    expect((await list())[1]?.slots.filter(({ siteId }) => siteId === null).at(-1)?.localStart).toContain(
      'T11:00',
    );
  });

  it('are refused a service that is none, and end with a retired one', async () => {
    const { owner, desk, serviceId } = await openTestStudio(api);
    const query = { firstDay: '2090-01-01', lastDay: '2090-01-02' };
    const none = await desk.GET('/v1/availability', {
      params: { query: { ...query, serviceId: '0199d000-0000-7000-8000-00000000ffff' } },
    });
    expect(none.error).toMatchObject({ status: 422, errors: [{ field: 'serviceId' }] });
    await dataOf(
      owner.PATCH('/v1/services/{serviceId}', {
        params: { path: { serviceId }, header: { 'If-Match': '"1"' } },
        body: { retired: true },
      }),
    );
    const { days } = await dataOf(
      desk.GET('/v1/availability', { params: { query: { ...query, serviceId } } }),
    );
    expect(days).toEqual([]);
  });
});

describe('hours', () => {
  it.each([
    ['until before from', { until: '08:00' }, 'until'],
    ['a break outside them', { breaks: [{ from: '08:00', until: '09:30' }] }, 'breaks'],
    ['an end before they begin', { validUntil: '2025-01-01' }, 'validUntil'],
    ['a weekday that is none', { weekdays: [1.5] }, 'weekdays'],
    ['a time that is none', { from: '24:30' }, 'from'],
    [
      'two owners',
      { staffId: '0199d000-0000-7000-8000-000000000001', roomId: '0199d000-0000-7000-8000-000000000002' },
      'staffId',
    ],
  ])('with %s are refused', async (_, wrong, field) => {
    const { owner } = await openTestStudio(api);
    const body = { weekdays: [1], from: '09:00', until: '17:00', validFrom: '2026-01-01', ...wrong };
    const { error } = await owner.POST('/v1/weekly-hours', { body });
    expect(error).toMatchObject({ status: 400, errors: [{ field }] });
  });

  it('are changed, ended and taken back by who saw the newest version', async () => {
    const { owner } = await openTestStudio(api);
    const body = { weekdays: [1], from: '09:00', until: '17:00', validFrom: '2026-01-01' };
    const { id } = await dataOf(owner.POST('/v1/weekly-hours', { body }));
    const seen = (version: number) => ({
      params: { path: { weeklyHoursId: id }, header: { 'If-Match': `"${version}"` } },
    });
    const ended = await dataOf(
      owner.PATCH('/v1/weekly-hours/{weeklyHoursId}', { ...seen(1), body: { validUntil: '2026-06-30' } }),
    );
    expect(ended).toMatchObject({ from: '09:00', validUntil: '2026-06-30', version: 2 });
    const stale = await owner.DELETE('/v1/weekly-hours/{weeklyHoursId}', seen(1));
    expect(stale.response.status).toBe(412);
    await dataOf(owner.DELETE('/v1/weekly-hours/{weeklyHoursId}', seen(2)));
    expect((await dataOf(owner.GET('/v1/weekly-hours'))).items).toEqual([]);
  });
});

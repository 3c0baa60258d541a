import { afterAll, beforeAll, expect, it } from '@jest/globals';
import { dataOf, type components } from '@studio/api-client';
import { takeOnClient } from '../helpers/rider.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';

type Appointment = components['schemas']['AppointmentResponse'];
type Service = components['schemas']['ServiceResponse'];

let api: TestApi;
beforeAll(async () => {
  api = await startTestApi();
});
afterAll(() => api.close());

const minuteMs = 60_000;

/** The same visits every time (Park–Miller). */
function random(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (state * 48_271) % 2_147_483_647;
    return state % below;
  };
}

/** Days on which the clock is changed, north and south, when the desk is open through the change. */
const days = [
  { timeZone: 'Europe/Copenhagen', day: '2090-03-26' },
  { timeZone: 'America/New_York', day: '2090-11-05' },
  { timeZone: 'Pacific/Auckland', day: '2090-10-01' },
] as const;

/** From when to when by the clock on the wall, like 03:30; the first minute is in, the last is not. */
type Span = readonly [from: string, until: string];

interface Scene extends TestStudio {
  readonly clientId: string;
  readonly siteId: string;
  readonly services: readonly Service[];
  readonly fitters: readonly { id: string; open: readonly Span[] }[];
  readonly rooms: readonly string[];
  readonly benches: readonly string[];
}

async function scene(timeZone: string): Promise<Scene> {
  const studio = await openTestStudio(api);
  const { owner } = studio;
  const { clientId } = await takeOnClient(owner);
  const { id: siteId } = await dataOf(owner.POST('/v1/sites', { body: { name: 'Here', timeZone } }));
  const made = async <T>(names: readonly string[], make: (name: string) => Promise<T>): Promise<T[]> => {
    const list: T[] = [];
    for (const name of names) list.push(await make(name));
    return list;
  };
  const rooms = await made(
    ['One', 'Two'],
    async (name) => (await dataOf(owner.POST('/v1/rooms', { body: { name, siteId } }))).id,
  );
  const benches = await made(
    ['A', 'B'],
    async (name) => (await dataOf(owner.POST('/v1/benches', { body: { name, siteId } }))).id,
  );
  // So that the owner, who works at any hour, is not asked for.
  const skills = ['fitting'];
  const ids = await made(['early', 'late'], async (name) => {
    const person = {
      email: `${name}@fitters.example`,
      displayName: name,
      roles: ['fitter' as const],
      skills,
    };
    return (
      await dataOf(owner.POST('/v1/staff', { body: { ...person, password: 'a password for tests only' } }))
    ).id;
  });
  const services = await made(['Plain', 'Buffered', 'Curing'], (name) => {
    const more = {
      Plain: { durationMinutes: 30 },
      Buffered: { durationMinutes: 35, bufferBeforeMinutes: 10, bufferAfterMinutes: 5 },
      Curing: { durationMinutes: 20, curingMinutes: 100 },
    }[name] ?? { durationMinutes: 30 };
    return dataOf(owner.POST('/v1/services', { body: { name, requiredSkills: skills, ...more } }));
  });
  const hours = (body: Partial<components['schemas']['CreateWeeklyHoursRequest']>) =>
    dataOf(
      owner.POST('/v1/weekly-hours', {
        body: {
          weekdays: [1, 2, 3, 4, 5, 6, 7],
          validFrom: '2026-01-01',
          from: '00:00',
          until: '08:00',
          ...body,
        },
      }),
    );
  await hours({ siteId });
  const [early = '', late = ''] = ids;
  await hours({
    staffId: early,
    atSiteId: siteId,
    until: '06:30',
    breaks: [{ from: '03:30', until: '04:00' }],
  });
  await hours({ staffId: late, atSiteId: siteId, from: '01:00' });
  const fitters = [
    { id: early, open: [['00:00', '03:30'] as const, ['04:00', '06:30'] as const] },
    { id: late, open: [['01:00', '08:00'] as const] },
  ];
  return { ...studio, clientId, siteId, services, fitters, rooms, benches };
}

/** Knows every minute of every fitter, room and bench, and looks at each of them. */
class Oracle {
  private readonly visits = new Map<string, Appointment>();
  private readonly walls = new Map<number, string>();
  private readonly clock: Intl.DateTimeFormat;

  constructor(
    private readonly here: Scene,
    timeZone: string,
  ) {
    const parts = {
      hour: '2-digit',
      minute: '2-digit',
      day: '2-digit',
      month: '2-digit',
      year: 'numeric',
    } as const;
    this.clock = new Intl.DateTimeFormat('sv-SE', { timeZone, hourCycle: 'h23', ...parts });
  }

  /** Like 2090-03-26 03:15. */
  wall(at: number): string {
    const time = this.walls.get(at) ?? this.clock.format(at);
    this.walls.set(at, time);
    return time;
  }

  keep(visit: Appointment): void {
    if (visit.state === 'cancelled') this.visits.delete(visit.id);
    else this.visits.set(visit.id, visit);
  }

  any(pick: (below: number) => number): Appointment | undefined {
    return [...this.visits.values()][pick(this.visits.size)];
  }

  /** Whether a visit of the service may begin then, with this fitter in this room. */
  allows(
    at: number,
    wish: { service: Service; fitterId: string; roomId: string; benches: readonly string[]; except?: string },
  ): boolean {
    const { service, fitterId, roomId, benches, except } = wish;
    const end = at + service.durationMinutes * minuteMs;
    const from = at - service.bufferBeforeMinutes * minuteMs;
    const until = end + service.bufferAfterMinutes * minuteMs;
    const spans = this.here.fitters.find(({ id }) => id === fitterId)?.open ?? [];
    const minutes = Array.from({ length: (until - from) / minuteMs }, (_, index) => from + index * minuteMs);
    const open = minutes.every((minute) => {
      const time = this.wall(minute).slice(11);
      return spans.some(([first, last]) => first <= time && time < last);
    });
    if (!open) return false;
    const others = [...this.visits.values()].filter(({ id }) => id !== except);
    const takenBy = (id: string, curing: boolean) => (minute: number) =>
      others.some((other) => {
        const of = this.serviceOf(other);
        const over = Date.parse(other.endsAt);
        return curing
          ? other.benchId === id && over <= minute && minute < over + of.curingMinutes * minuteMs
          : (other.fitterId === id || other.roomId === id) &&
              Date.parse(other.startsAt) - of.bufferBeforeMinutes * minuteMs <= minute &&
              minute < over + of.bufferAfterMinutes * minuteMs;
      });
    if (minutes.some(takenBy(fitterId, false)) || minutes.some(takenBy(roomId, false))) return false;
    const curing = Array.from({ length: service.curingMinutes }, (_, index) => end + index * minuteMs);
    return curing.length === 0 || benches.some((bench) => !curing.some(takenBy(bench, true)));
  }

  serviceOf({ serviceId }: Appointment): Service {
    const service = this.here.services.find(({ id }) => id === serviceId);
    if (!service) throw new Error('a visit of no service');
    return service;
  }
}

it.each(days)(
  'answers random bookings and moves as one who tries every minute: $timeZone, $day',
  async ({ timeZone, day }) => {
    const here = await scene(timeZone);
    const oracle = new Oracle(here, timeZone);
    const { desk, clientId, siteId, services, fitters, rooms, benches } = here;
    const pick = random(day.charCodeAt(6) * 7919 + 17);
    const one = <T>(list: readonly T[]): T => list[pick(list.length)] as T;
    const noon = Date.parse(`${day}T12:00:00Z`);
    const quarters = Array.from(
      { length: 4 * 72 },
      (_, index) => noon - 36 * 3_600_000 + index * 15 * minuteMs,
    );
    const ofDay = quarters.filter((at) => oracle.wall(at).startsWith(day));
    const busy = ofDay.filter((at) => oracle.wall(at).slice(11) < '08:00');
    const kept = { yes: 0, no: 0 };
    const agree = (
      what: string,
      expected: boolean,
      answer: { data?: Appointment; error?: unknown },
    ): void => {
      expect([what, answer.data !== undefined, answer.error ?? null]).toEqual([
        ...[what, expected, expected ? null : expect.anything()],
      ]);
      kept[expected ? 'yes' : 'no'] += 1;
      if (answer.data) oracle.keep(answer.data);
    };

    for (let step = 0; step < 90; step += 1) {
      const at = one(busy) + 5 * pick(3) * minuteMs;
      const service = one(services);
      const fitterId = one(fitters).id;
      const roomId = one(rooms);
      const startsAt = new Date(at).toISOString();
      const kind = pick(10);
      const seen = oracle.any(pick);
      const what = `${step}: ${kind} ${service.name} at ${oracle.wall(at)}`;
      if (seen === undefined || kind < 5) {
        const expected = oracle.allows(at, { service, fitterId, roomId, benches });
        const hold = kind === 0 ? { holdMinutes: 60 } : {};
        const body = { clientId, serviceId: service.id, fitterId, roomId, startsAt, ...hold };
        agree(what, expected, await desk.POST('/v1/appointments', { body }));
      } else {
        const of = {
          params: { path: { appointmentId: seen.id }, header: { 'If-Match': `"${seen.version}"` } },
        };
        if (kind < 8) {
          const wish = { service: oracle.serviceOf(seen), fitterId, roomId, except: seen.id };
          const expected = oracle.allows(at, {
            ...wish,
            benches: seen.benchId === null ? [] : [seen.benchId],
          });
          const body = { startsAt, fitterId, roomId };
          agree(what, expected, await desk.PATCH('/v1/appointments/{appointmentId}', { ...of, body }));
        } else {
          const body = { reason: 'Ill.' };
          const path = '/v1/appointments/{appointmentId}/cancellation';
          agree(what, true, await desk.POST(path, { ...of, body }));
        }
      }
      if (step % 30 !== 29) continue;
      for (const asked of services) {
        const query = { serviceId: asked.id, siteId, firstDay: day, lastDay: day };
        const { days: told } = await dataOf(desk.GET('/v1/availability', { params: { query } }));
        const offered = told.flatMap(({ slots }) =>
          slots.flatMap(({ startsAt: start, fitterIds, roomIds }) =>
            fitterIds.flatMap((fitter) => roomIds.map((room) => `${start} ${fitter} ${room}`)),
          ),
        );
        const bookable = ofDay.flatMap((start) =>
          fitters.flatMap(({ id }) =>
            rooms.flatMap((room) =>
              oracle.allows(start, { service: asked, fitterId: id, roomId: room, benches })
                ? [`${new Date(start).toISOString()} ${id} ${room}`]
                : [],
            ),
          ),
        );
        expect([asked.name, offered.sort()]).toEqual([asked.name, bookable.sort()]);
      }
    }
    expect(Math.min(kept.yes, kept.no)).toBeGreaterThan(15);
  },
  120_000,
);

import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf, type components } from '@studio/api-client';
import { randomUUID } from 'node:crypto';
import pg from 'pg';
import { nothingWrong, screen, takeOnClient } from '../../../../../tests/helpers/rider.js';
import {
  openTestStudio,
  startTestApi,
  type TestApi,
  type TestStudio,
} from '../../../../../tests/helpers/studio.js';
import { connect, type Connected } from '../../../../../tests/helpers/keys.js';
import { OfferFreedTimesJob } from './offer-freed-times.job.js';

type Schemas = components['schemas'];

let api: TestApi;
let database: pg.Client;
let connected: Connected;
let job: OfferFreedTimesJob;

beforeAll(async () => {
  api = await startTestApi();
  database = new pg.Client({ connectionString: api.database.adminUrl });
  await database.connect();
  connected = await connect(api.database.workerUrl);
  job = new OfferFreedTimesJob(connected.transaction, { publicUrl: api.url });
});
afterAll(async () => {
  await connected.close();
  await database.end();
  await api.close();
});

/** The only day on which the studio is open, a Thursday, and the only hour that is not booked is the one that comes free. */
const day = '2090-03-02';

interface Scene extends TestStudio {
  readonly visit: Schemas['AppointmentResponse'];
  readonly run: () => Promise<void>;
}

async function scene(hours = { from: '09:00', until: '10:00' }): Promise<Scene> {
  const studio = await openTestStudio(api);
  const { owner, serviceId, roomId } = studio;
  await dataOf(
    owner.POST('/v1/weekly-hours', {
      body: { weekdays: [4], ...hours, validFrom: '2090-03-01', validUntil: '2090-03-07' },
    }),
  );
  const { clientId } = await takeOnClient(owner);
  const body = { clientId, serviceId, roomId, fitterId: owner.signedIn.id, startsAt: `${day}T08:00:00Z` };
  const visit = await dataOf(owner.POST('/v1/appointments', { body }));
  const run = () =>
    job.handle(
      { studioId: studio.studio.studioId, outboxId: randomUUID(), payload: {} },
      new AbortController().signal,
    );
  return { ...studio, visit, run };
}
const cancel = ({ desk }: Scene, { id, version }: Schemas['AppointmentResponse']) =>
  dataOf(
    desk.POST('/v1/appointments/{appointmentId}/cancellation', {
      params: { path: { appointmentId: id }, header: { 'If-Match': `"${version}"` } },
      body: { reason: 'Ill.' },
    }),
  );
async function wish(
  { owner, desk, serviceId }: Scene,
  more: Partial<Schemas['CreateWishRequest']> = {},
): Promise<Schemas['WishResponse']> {
  const clientId = more.clientId ?? (await takeOnClient(owner)).clientId;
  const body = { clientId, serviceId, firstDay: '2090-03-01', lastDay: '2090-03-06', ...more };
  return dataOf(desk.POST('/v1/waiting-list', { body }));
}
const wishNow = ({ desk }: Scene, { id }: { id: string }) =>
  dataOf(desk.GET('/v1/waiting-list/{wishId}', { params: { path: { wishId: id } } }));
const offersOf = ({ desk }: Scene, { id }: { id: string }) =>
  dataOf(desk.GET('/v1/waiting-list/{wishId}/offers', { params: { path: { wishId: id } } }));
const answer = ({ desk }: Scene, slotOfferId: string, how: 'acceptance' | 'refusal') =>
  desk.POST(`/v1/slot-offers/{slotOfferId}/${how}`, { params: { path: { slotOfferId } } });
const minutesPass = ({ owner }: Scene, minutes: number) =>
  dataOf(owner.POST('/v1/test-clock/advance', { body: { seconds: minutes * 60 } }));
const statesOf = (here: Scene, wishes: readonly { id: string }[]) =>
  Promise.all(wishes.map(async (one) => (await wishNow(here, one)).state));

/** In 2090 the clock of the tests is decades behind, so offers run out in hours, as usual. */
describe('a time that comes free', () => {
  it('is offered to the first in order whose wish it fits, held, and told by message', async () => {
    const here = await scene();
    const wishes = [
      await wish(here, { weekdays: [1, 2] }),
      await wish(here, { times: [{ from: '10:00', until: '20:00' }] }),
      await wish(here, { lastDay: '2090-03-01' }),
      await wish(here, { fitterId: here.owner.signedIn.id, times: [{ from: '08:00', until: '09:15' }] }),
      await wish(here),
    ];
    await here.run();
    expect(await statesOf(here, wishes)).toEqual(Array.from({ length: 5 }, () => 'waiting'));
    await cancel(here, here.visit);
    await here.run();
    await here.run();
    expect(await statesOf(here, wishes)).toEqual(['waiting', 'waiting', 'waiting', 'offered', 'waiting']);
    const chosen = wishes[3] as Schemas['WishResponse'];
    const [offer] = await offersOf(here, chosen);
    expect(offer).toMatchObject({
      ...{ state: 'open', startsAt: `${day}T08:00:00.000Z`, allowed: ['accept', 'decline'] },
    });
    const held = await dataOf(
      here.desk.GET('/v1/appointments/{appointmentId}', {
        params: { path: { appointmentId: offer?.appointmentId ?? '' } },
      }),
    );
    expect(held).toMatchObject({ state: 'held', clientId: chosen.clientId, heldUntil: offer?.expiresAt });
    const told = await database.query<{ template: string; link: string }>(
      `SELECT template, data->>'link' AS link FROM messages WHERE subject_id = $1`,
      [offer?.id],
    );
    expect(told.rows).toMatchObject([{ template: 'waiting_list_offer' }]);
  });

  it('goes on to the next when nobody answers, and the desk is told to ask', async () => {
    const here = await scene();
    const [first, second] = [await wish(here), await wish(here)];
    await cancel(here, here.visit);
    await here.run();
    const [offer] = await offersOf(here, first);
    await minutesPass(here, 119);
    await here.run();
    expect(await statesOf(here, [first, second])).toEqual(['offered', 'waiting']);
    await minutesPass(here, 2);
    expect((await answer(here, offer?.id ?? '', 'acceptance')).error).toMatchObject({
      ...{ status: 409, code: 'slot-offers.not-open', state: 'expired', allowed: [] },
    });
    await here.run();
    expect(await statesOf(here, [first, second])).toEqual(['unanswered', 'offered']);
    const query = { kind: 'offer_expired' as const };
    const { items } = await dataOf(here.desk.GET('/v1/tasks', { params: { query } }));
    expect(items).toMatchObject([{ subjectId: offer?.id, subjectType: 'slot_offer', role: 'front_desk' }]);

    const again = await wishNow(here, first);
    await dataOf(
      here.desk.POST('/v1/waiting-list/{wishId}/resumption', {
        params: { path: { wishId: first.id }, header: { 'If-Match': `"${again.version}"` } },
      }),
    );
    await here.run();
    expect(await statesOf(here, [first, second])).toEqual(['waiting', 'offered']);
  });

  it('goes to the next when it is declined, and not again to who declined it', async () => {
    const here = await scene();
    const [first, second] = [await wish(here), await wish(here)];
    await cancel(here, here.visit);
    await here.run();
    const [offer] = await offersOf(here, first);
    expect(await dataOf(answer(here, offer?.id ?? '', 'refusal'))).toMatchObject({ state: 'declined' });
    await here.run();
    expect(await statesOf(here, [first, second])).toEqual(['waiting', 'offered']);
  });

  it('by a hold that ran out, a visit that moved, or hours that changed is offered too', async () => {
    const here = await scene();
    const waiting = await wish(here);
    const { clientId } = await takeOnClient(here.owner);
    const { serviceId, roomId, owner, desk } = here;
    const at = { serviceId, roomId, fitterId: owner.signedIn.id };
    // Moved away, to a time outside hours; then held, and let go by itself.
    await dataOf(
      desk.PATCH('/v1/appointments/{appointmentId}', {
        params: {
          path: { appointmentId: here.visit.id },
          header: { 'If-Match': `"${here.visit.version}"` },
        },
        body: { startsAt: `${day}T20:00:00Z`, evenOutsideHours: true },
      }),
    );
    const hold = { ...at, clientId, startsAt: `${day}T08:00:00Z`, holdMinutes: 30 };
    await dataOf(desk.POST('/v1/appointments', { body: hold }));
    await here.run();
    expect((await wishNow(here, waiting)).state).toBe('waiting');
    await minutesPass(here, 31);
    await here.run();
    expect((await wishNow(here, waiting)).state).toBe('offered');

    const other = await wish(here);
    await here.run();
    expect((await wishNow(here, other)).state).toBe('waiting');
    await dataOf(
      owner.POST('/v1/hours-exceptions', {
        body: {
          kind: 'open',
          reason: 'other_hours',
          firstDay: '2090-03-03',
          lastDay: '2090-03-03',
          from: '09:00',
          until: '10:00',
        },
      }),
    );
    await here.run();
    expect((await offersOf(here, other))[0]?.startsAt).toBe('2090-03-03T08:00:00.000Z');
    const ordered = await database.query<{ job: string; later: boolean }>(
      `SELECT DISTINCT job, available_at > app_now() AS later FROM outbox
        WHERE studio_id = $1 AND job = 'offer-freed-times' ORDER BY later`,
      [here.studio.studioId],
    );
    expect(ordered.rows.map(({ later }) => later)).toEqual([false, true]);
  });

  it('that somebody took back is offered no more, and its wish waits again', async () => {
    const here = await scene();
    const waiting = await wish(here);
    await cancel(here, here.visit);
    await here.run();
    const [offer] = await offersOf(here, waiting);
    const held = await dataOf(
      here.desk.GET('/v1/appointments/{appointmentId}', {
        params: { path: { appointmentId: offer?.appointmentId ?? '' } },
      }),
    );
    await cancel(here, held);
    await here.run();
    expect((await offersOf(here, waiting)).map(({ state }) => state)).toEqual(['open', 'withdrawn']);
  });
});

describe('an offer', () => {
  it('is accepted once, by twenty at once', async () => {
    const here = await scene();
    const waiting = await wish(here);
    await cancel(here, here.visit);
    await here.run();
    const [offer] = await offersOf(here, waiting);
    const answers = await Promise.all(
      Array.from({ length: 20 }, () => answer(here, offer?.id ?? '', 'acceptance')),
    );
    expect(answers.map(({ response }) => response.status).sort()).toEqual([
      200,
      ...Array.from({ length: 19 }, () => 409),
    ]);
    expect((await wishNow(here, waiting)).state).toBe('booked');
    const history = await dataOf(
      here.desk.GET('/v1/appointments/{appointmentId}/history', {
        params: { path: { appointmentId: offer?.appointmentId ?? '' } },
      }),
    );
    expect(history.map(({ action }) => action)).toEqual(['hold', 'book']);
  });

  it('is not for who may not be booked any more, and a withdrawn wish frees its time', async () => {
    const here = await scene();
    const [barred, next] = [await wish(here), await wish(here)];
    await cancel(here, here.visit);
    await here.run();
    await screen(here.desk, barred.clientId, { ...nothingWrong, bone_pain_on_loading: 'yes' });
    const [offer] = await offersOf(here, barred);
    const refused = await answer(here, offer?.id ?? '', 'acceptance');
    expect(refused.error).toMatchObject({ status: 409, code: 'screenings.not-permitted' });
    expect(JSON.stringify(refused.error)).not.toMatch(/bone|pain/);
    const { version } = await wishNow(here, barred);
    const on = { params: { path: { wishId: barred.id }, header: { 'If-Match': `"${version}"` } } };
    await dataOf(here.desk.POST('/v1/waiting-list/{wishId}/withdrawal', on));
    expect((await here.desk.POST('/v1/waiting-list/{wishId}/withdrawal', on)).error).toMatchObject({
      ...{ status: 409, state: 'withdrawn', allowed: ['resume'] },
    });
    await here.run();
    expect(await statesOf(here, [barred, next])).toEqual(['withdrawn', 'offered']);
  });

  it('of another studio is not there', async () => {
    const [here, elsewhere] = [await scene(), await scene()];
    const waiting = await wish(here);
    await cancel(here, here.visit);
    await here.run();
    const [offer] = await offersOf(here, waiting);
    const slotOfferId = offer?.id ?? '';
    const get = ({ desk }: Scene) =>
      desk.GET('/v1/slot-offers/{slotOfferId}', { params: { path: { slotOfferId } } });
    expect((await get(here)).response.status).toBe(200);
    expect((await get(elsewhere)).response.status).toBe(404);
    expect((await answer(elsewhere, slotOfferId, 'acceptance')).response.status).toBe(404);
    expect((await answer(elsewhere, slotOfferId, 'refusal')).response.status).toBe(404);
  });

  it('is kept as long as the studio says', async () => {
    const here = await scene();
    const settings = here.owner.PUT('/v1/waiting-list-settings', { body: { offerMinutes: 30 } });
    expect(await dataOf(settings)).toEqual({ offerMinutes: 30 });
    expect(
      (await here.desk.PUT('/v1/waiting-list-settings', { body: { offerMinutes: 30 } })).response.status,
    ).toBe(403);
    const waiting = await wish(here);
    await cancel(here, here.visit);
    const { now } = await minutesPass(here, 1);
    await here.run();
    const [offer] = await offersOf(here, waiting);
    const kept = (Date.parse(offer?.expiresAt ?? '') - Date.parse(now)) / 60_000;
    expect(kept).toBeGreaterThan(29.9);
    expect(kept).toBeLessThan(31);
  });
});

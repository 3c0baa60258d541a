import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf } from '@studio/api-client';
import ICAL from 'ical.js';
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

const book = (startsAt: string, holdMinutes?: number) =>
  dataOf(
    studio.desk.POST('/v1/appointments', {
      body: {
        ...{ clientId, serviceId: studio.serviceId, roomId: studio.roomId },
        ...{ fitterId: studio.owner.signedIn.id, startsAt, tellClient: false },
        ...(holdMinutes !== undefined && { holdMinutes }),
      },
    }),
  );
const of = ({ id, version }: { id: string; version: number }) => ({
  params: { path: { appointmentId: id }, header: { 'If-Match': `"${version}"` } },
});
const feedOf = (body: { fitterId?: string; roomId?: string }) =>
  dataOf(studio.owner.POST('/v1/calendar-feeds', { body }));

/** What a calendar program makes of the feed. */
async function read(address: string) {
  const response = await fetch(address);
  const text = await response.text();
  const parsed = new ICAL.Component(ICAL.parse(text) as unknown[]);
  for (const zone of parsed.getAllSubcomponents('vtimezone'))
    ICAL.TimezoneService.register(new ICAL.Timezone(zone));
  const events = parsed.getAllSubcomponents('vevent').map((component) => ({
    uid: component.getFirstPropertyValue('uid'),
    sequence: component.getFirstPropertyValue('sequence'),
    status: component.getFirstPropertyValue('status'),
    summary: component.getFirstPropertyValue('summary'),
    startsAt: new ICAL.Event(component).startDate.toJSDate().toISOString(),
  }));
  return { response, text, events };
}

describe('a feed', () => {
  it('shows the visits of a fitter, with their moves and cancellations, and of the client what the studio allows', async () => {
    const { address } = await feedOf({ fitterId: studio.owner.signedIn.id });
    const visit = await book('2089-03-26T09:00:00Z');
    const held = await book('2089-03-27T09:00:00Z', 60);
    const first = await read(address);
    expect(first.response.headers.get('content-type')).toBe('text/calendar; charset=utf-8');
    expect(first.events).toEqual([
      {
        uid: visit.id,
        sequence: 0,
        status: 'CONFIRMED',
        summary: 'First fit, R. R.',
        startsAt: '2089-03-26T09:00:00.000Z',
      },
      expect.objectContaining({ uid: held.id, status: 'TENTATIVE' }),
    ]);
    expect(first.text).not.toMatch(/Robin|Rider|@/);

    const moved = await dataOf(
      studio.desk.PATCH('/v1/appointments/{appointmentId}', {
        ...of(visit),
        body: { startsAt: '2089-10-30T09:00:00Z', tellClient: false },
      }),
    );
    const second = await read(address);
    expect(second.events.find(({ uid }) => uid === visit.id)).toMatchObject({
      sequence: 1,
      startsAt: '2089-10-30T09:00:00.000Z',
    });
    await dataOf(
      studio.desk.POST('/v1/appointments/{appointmentId}/cancellation', {
        ...of(moved),
        body: { reason: 'Pain in the knee.' },
      }),
    );
    const third = await read(address);
    expect(third.events.find(({ uid }) => uid === visit.id)).toMatchObject({
      sequence: 2,
      status: 'CANCELLED',
    });
    expect(third.text).not.toContain('knee');

    const settings = await dataOf(studio.owner.GET('/v1/message-settings'));
    await dataOf(
      studio.owner.PATCH('/v1/message-settings', {
        params: { header: { 'If-Match': `"${settings.version}"` } },
        body: { calendarNames: 'none' },
      }),
    );
    expect((await read(address)).events[0]?.summary).toBe('First fit');
  });

  it('of a room names the fitter', async () => {
    const { address } = await feedOf({ roomId: studio.roomId });
    await book('2089-06-01T09:00:00Z');
    expect((await read(address)).events.at(-1)?.summary).toMatch(/, Owner$/);
  });

  it('is not sent again while nothing has changed', async () => {
    const { address } = await feedOf({ roomId: studio.roomId });
    const etag = (await fetch(address)).headers.get('etag') ?? '';
    const again = await fetch(address, { headers: { 'if-none-match': `"other", W/${etag}` } });
    expect([again.status, await again.text()]).toEqual([304, '']);
    await book('2089-06-02T09:00:00Z');
    expect((await fetch(address, { headers: { 'if-none-match': etag } })).status).toBe(200);
  });

  it('stops at the old address when it is renewed, and for good when it is revoked', async () => {
    const feed = await feedOf({ roomId: studio.roomId });
    const named = { params: { path: { calendarFeedId: feed.id } } };
    const renewed = await dataOf(studio.owner.POST('/v1/calendar-feeds/{calendarFeedId}/renewal', named));
    expect(renewed.address).not.toBe(feed.address);
    expect((await fetch(feed.address)).status).toBe(404);
    expect((await fetch(renewed.address)).status).toBe(200);
    await dataOf(studio.owner.POST('/v1/calendar-feeds/{calendarFeedId}/revocation', named));
    expect((await fetch(renewed.address)).status).toBe(410);
    const { error } = await studio.owner.POST('/v1/calendar-feeds/{calendarFeedId}/renewal', named);
    expect(error).toMatchObject({ status: 409, code: 'calendar-feeds.revoked' });
    const { items } = await dataOf(studio.owner.GET('/v1/calendar-feeds'));
    expect(JSON.stringify(items)).not.toContain('calendars/');
  });

  it('of another person is for the owner alone', async () => {
    const fitterId = studio.owner.signedIn.id;
    expect((await studio.desk.POST('/v1/calendar-feeds', { body: { fitterId } })).error).toMatchObject({
      status: 403,
    });
    expect((await studio.owner.POST('/v1/calendar-feeds', { body: {} })).error).toMatchObject({
      status: 400,
    });
    const unknown = { roomId: '0199d000-0000-7000-8000-00000000ffff' };
    expect((await studio.owner.POST('/v1/calendar-feeds', { body: unknown })).error).toMatchObject({
      status: 422,
    });
    expect((await fetch(`${api.url}/calendars/nothing.ics`)).status).toBe(404);
  });
});

import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import { dataOf, type components } from '@studio/api-client';
import type { ChildProcess } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { Webhook } from 'standardwebhooks';
import { post } from '../../apps/worker/src/jobs/deliver-webhook/post.js';
import { eventually } from '../helpers/mail.js';
import { startReceiver, type Receiver } from '../helpers/receiver.js';
import { takeOnClient } from '../helpers/rider.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';
import { startWorker, stop } from '../helpers/worker.js';

type Schemas = components['schemas'];
type Endpoint = Schemas['WebhookEndpointWithSecretResponse'];
type Delivery = Schemas['WebhookDeliveryResponse'];

let api: TestApi;
let studio: TestStudio;
let worker: ChildProcess;
let receiver: Receiver;
let clientId: string;

beforeAll(async () => {
  api = await startTestApi();
  studio = await openTestStudio(api);
  ({ clientId } = await takeOnClient(studio.owner));
  worker = startWorker(api, `w${randomUUID().slice(0, 8)}`);
});
afterAll(async () => {
  await stop(worker);
  await api.close();
});
beforeEach(async () => {
  receiver = await startReceiver();
});
afterEach(() => receiver.close());

const timePasses = (seconds: number) =>
  dataOf(studio.owner.POST('/v1/test-clock/advance', { body: { seconds } }));

const register = (events: Schemas['CreateWebhookEndpointRequest']['events'], url = receiver.url) =>
  dataOf(studio.owner.POST('/v1/webhook-endpoints', { body: { url, events } }));

let visits = 0;
/** Each an hour after the one before. */
const bookVisit = () => {
  const startsAt = new Date(Date.parse('2090-03-02T09:00:00Z') + (visits += 1) * 3_600_000).toISOString();
  const { serviceId, roomId } = studio;
  return dataOf(
    studio.desk.POST('/v1/appointments', {
      body: {
        clientId,
        serviceId,
        roomId,
        fitterId: studio.owner.signedIn.id,
        startsAt,
        evenOutsideHours: true,
      },
    }),
  );
};

const deliveriesOf = async ({ id }: Endpoint): Promise<Delivery[]> => {
  const of = { params: { path: { endpointId: id } } };
  return (await dataOf(studio.owner.GET('/v1/webhook-endpoints/{endpointId}/deliveries', of))).items;
};
const delivery = (endpoint: Endpoint, what: Partial<Delivery>): Promise<Delivery> =>
  eventually(JSON.stringify(what), 20, async () =>
    (await deliveriesOf(endpoint)).find((one) =>
      Object.entries(what).every(([key, value]) => one[key as keyof Delivery] === value),
    ),
  );
const endpointNow = ({ id }: Endpoint) =>
  dataOf(studio.owner.GET('/v1/webhook-endpoints/{endpointId}', { params: { path: { endpointId: id } } }));
const change = async (endpoint: Endpoint, body: Schemas['UpdateWebhookEndpointRequest']) => {
  const { version } = await endpointNow(endpoint);
  const params = { path: { endpointId: endpoint.id }, header: { 'If-Match': `"${version}"` } };
  return dataOf(studio.owner.PATCH('/v1/webhook-endpoints/{endpointId}', { params, body }));
};
const replay = ({ id }: Delivery) =>
  studio.owner.POST('/v1/webhook-deliveries/{deliveryId}/replay', { params: { path: { deliveryId: id } } });

describe('an endpoint', () => {
  it('is told of what it asked for, signed, in ids only, and shows its secret once', async () => {
    const endpoint = await register(['appointment.booked', 'appointment.cancelled']);
    expect(JSON.stringify(await endpointNow(endpoint))).not.toContain('whsec_');
    const { id, version } = await bookVisit();
    const delivered = await delivery(endpoint, { state: 'delivered' });
    expect(delivered).toMatchObject({
      ...{ type: 'appointment.booked', subjectId: id, attempts: 1, lastStatus: 204, lastError: null },
    });
    const [{ headers, body }] = receiver.received as [Receiver['received'][number]];
    expect(new Webhook(endpoint.secret).verify(body, headers as Record<string, string>)).toEqual({
      type: 'appointment.booked',
      timestamp: delivered.occurredAt,
      data: { studioId: studio.studio.studioId, appointmentId: id },
    });
    expect(headers['webhook-id']).toBe(delivered.eventId);

    // Not asked for, so nothing is written; then what was.
    const at = { path: { appointmentId: id }, header: { 'If-Match': `"${version}"` } };
    const moved = await dataOf(
      studio.desk.PATCH('/v1/appointments/{appointmentId}', {
        params: at,
        body: { startsAt: '2090-05-02T09:00:00Z', evenOutsideHours: true },
      }),
    );
    await dataOf(
      studio.desk.POST('/v1/appointments/{appointmentId}/cancellation', {
        params: { ...at, header: { 'If-Match': `"${moved.version}"` } },
        body: { reason: 'ill' },
      }),
    );
    await delivery(endpoint, { type: 'appointment.cancelled', state: 'delivered' });
    expect(await deliveriesOf(endpoint)).toHaveLength(2);
    await change(endpoint, { enabled: false });
  });

  it('is tried again until it answers, and is the same message each time', async () => {
    const endpoint = await register(['appointment.booked']);
    receiver.answer(503);
    await bookVisit();
    await delivery(endpoint, { state: 'waiting', attempts: 1, lastError: 'HTTP 503' });
    expect((await endpointNow(endpoint)).failingSince).not.toBeNull();
    // A redirect is followed nowhere.
    const elsewhere = await startReceiver();
    receiver.answer(307, { location: elsewhere.url });
    await timePasses(60);
    await delivery(endpoint, { state: 'waiting', attempts: 2, lastError: 'HTTP 307' });
    expect(elsewhere.received).toEqual([]);
    await elsewhere.close();

    receiver.answer(200);
    await timePasses(60);
    const delivered = await delivery(endpoint, { state: 'delivered', attempts: 3 });
    expect(new Set(receiver.received.map(({ headers }) => headers['webhook-id'])).size).toBe(1);
    expect((await endpointNow(endpoint)).failingSince).toBeNull();

    expect((await replay(delivered)).response.status).toBe(204);
    await delivery(endpoint, { state: 'delivered', attempts: 4 });
    expect(receiver.received.map(({ body }) => body)).toEqual(Array(4).fill(receiver.received[0]?.body));
    await change(endpoint, { enabled: false });
    expect((await replay(delivered)).error).toMatchObject({ status: 409, because: 'endpoint_disabled' });
  });

  it('is disabled when it has failed for three days, and the owner gets a task until it is enabled', async () => {
    const endpoint = await register(['appointment.booked']);
    receiver.answer(500);
    await bookVisit();
    await delivery(endpoint, { attempts: 1 });
    await timePasses(3 * 86_400 + 60);
    await eventually('disabled', 20, async () =>
      (await endpointNow(endpoint)).disabledBecause === 'failing' ? true : undefined,
    );
    await bookVisit();
    expect(await deliveriesOf(endpoint)).toHaveLength(1);
    const tasks = async () =>
      (await dataOf(studio.owner.GET('/v1/tasks'))).items.filter(
        ({ subjectId }) => subjectId === endpoint.id,
      );
    expect(await tasks()).toMatchObject([{ kind: 'webhook_disabled', role: 'owner' }]);
    await change(endpoint, { enabled: true });
    expect(await tasks()).toEqual([]);
    await change(endpoint, { enabled: false });
  });

  it('that is gone is disabled at once; enabled again, the failed order can be retried or discarded', async () => {
    const endpoint = await register(['appointment.booked']);
    receiver.answer(410);
    await bookVisit();
    const { id: deliveryId } = await delivery(endpoint, { state: 'failed', lastStatus: 410 });
    expect(await endpointNow(endpoint)).toMatchObject({ enabled: false, disabledBecause: 'gone' });
    const failedOrders = async () => (await dataOf(studio.owner.GET('/v1/failed-orders'))).items;
    const failed = (await failedOrders()).find(
      ({ about }) => (about as { deliveryId?: string }).deliveryId === deliveryId,
    );
    expect(failed).toMatchObject({ job: 'deliver-webhook', attempts: 1, lastError: 'HTTP 410' });
    const queueOf = async () =>
      (await dataOf(studio.owner.GET('/v1/queues'))).queues.find(({ name }) => name === 'webhooks');
    expect(await queueOf()).toMatchObject({ failed: 1 });

    const params = { path: { orderId: failed?.id ?? '' } };
    await dataOf(studio.owner.POST('/v1/failed-orders/{orderId}/discard', { params }));
    expect((await studio.owner.POST('/v1/failed-orders/{orderId}/discard', { params })).error).toMatchObject({
      status: 409,
      state: 'discarded',
      allowed: ['retry'],
    });
    expect(await queueOf()).toMatchObject({ failed: 0 });

    receiver.answer(200);
    await change(endpoint, { enabled: true });
    await dataOf(studio.owner.POST('/v1/failed-orders/{orderId}/retry', { params }));
    await delivery(endpoint, { id: deliveryId, state: 'delivered' });
    expect(await failedOrders()).toEqual([]);
    await change(endpoint, { enabled: false });
  });

  it('accepts either secret for a day after it was renewed', async () => {
    const endpoint = await register(['appointment.booked']);
    const params = { path: { endpointId: endpoint.id }, header: { 'If-Match': '"1"' } };
    const { secret } = await dataOf(
      studio.owner.POST('/v1/webhook-endpoints/{endpointId}/secret', { params }),
    );
    const verified = async (known: string): Promise<boolean> => {
      receiver.received.length = 0;
      await bookVisit();
      const { headers, body } = await eventually('a message', 20, () =>
        Promise.resolve(receiver.received[0]),
      );
      try {
        new Webhook(known).verify(body, headers as Record<string, string>);
        return true;
      } catch {
        return false;
      }
    };
    expect([await verified(secret), await verified(endpoint.secret)]).toEqual([true, true]);
    await timePasses(86_400 + 60);
    expect([await verified(secret), await verified(endpoint.secret)]).toEqual([true, false]);
    await change(endpoint, { enabled: false });
  });
});

describe('who and where', () => {
  it('only the owner, only their own studio’s', async () => {
    const endpoint = await register(['referral.opened']);
    const params = { path: { endpointId: endpoint.id } };
    const other = await openTestStudio(api);
    const seen = await other.owner.GET('/v1/webhook-endpoints/{endpointId}', { params });
    expect(seen.response.status).toBe(404);
    expect((await studio.desk.GET('/v1/webhook-endpoints/{endpointId}', { params })).response.status).toBe(
      403,
    );
    expect((await studio.desk.GET('/v1/queues')).response.status).toBe(403);
    expect((await dataOf(other.owner.GET('/v1/failed-orders'))).items).toEqual([]);
  });

  it('a create that is repeated gives the same endpoint and the same secret', async () => {
    const params = { header: { 'Idempotency-Key': randomUUID() } };
    const body = { url: receiver.url, events: ['referral.opened' as const] };
    const twice = [1, 2].map(() => dataOf(studio.owner.POST('/v1/webhook-endpoints', { params, body })));
    const [one, other] = await Promise.all(twice);
    expect(one).toEqual(other);
    expect(one?.secret).toMatch(/^whsec_/);
  });

  it('without the demo’s leave, neither plain http nor a private network at registration', async () => {
    const strict = await startTestApi({ LOCAL_WEBHOOKS: '0' });
    const { owner } = await openTestStudio(strict);
    const hosts = [
      'http://example.org/',
      'https://127.0.0.1/',
      'https://[::1]/',
      'https://localhost/',
      'https://10.0.0.7/',
    ];
    for (const url of hosts) {
      const refused = await owner.POST('/v1/webhook-endpoints', {
        body: { url, events: ['referral.opened'] },
      });
      expect([url, refused.error]).toMatchObject([url, { status: 400, errors: [{ field: 'url' }] }]);
    }
    await strict.close();
  });

  it('and at every delivery, whatever was registered', async () => {
    const url = receiver.url.replace('http:', 'https:');
    const sent = post(url, { headers: {}, body: '{}' }, { local: false, signal: AbortSignal.timeout(5_000) });
    await expect(sent).rejects.toThrow('private network');
    expect(receiver.received).toEqual([]);
  });
});

it('the recipe in docs/webhooks.md tells a true message from a false one', async () => {
  const page = readFileSync(new URL('../../docs/webhooks.md', import.meta.url), 'utf8');
  const [, code = ''] = /```js\n([\s\S]+?)```/.exec(page) ?? [];
  const { isGenuine } = (await import(`data:text/javascript,${encodeURIComponent(code)}`)) as {
    isGenuine: (secret: string, headers: Record<string, string>, body: string) => boolean;
  };
  const endpoint = await register(['appointment.booked']);
  await bookVisit();
  const { headers, body } = await eventually('a message', 20, () => Promise.resolve(receiver.received[0]));
  const given = headers as Record<string, string>;
  expect(isGenuine(endpoint.secret, given, body)).toBe(true);
  expect(isGenuine(endpoint.secret, given, `${body} `)).toBe(false);
  expect(isGenuine(endpoint.secret, { ...given, 'webhook-timestamp': '1' }, body)).toBe(false);
  expect(isGenuine(`whsec_${Buffer.alloc(32).toString('base64')}`, given, body)).toBe(false);
  expect(isGenuine(endpoint.secret, {}, body)).toBe(false);
});

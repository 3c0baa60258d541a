import { describe, expect, it } from '@jest/globals';
import { endpointSecret, signatureHeaders } from '@studio/webhooks';
import { Webhook } from 'standardwebhooks';

/**
 * Standard Webhooks specification, version 1 (github.com/standard-webhooks/standard-webhooks), by its reference library
 * `standardwebhooks` 1.1.1; the worked example below is that of its documentation and tests, from memory.
 */
describe('a signed message', () => {
  const secret = endpointSecret('a key of at least thirty-two characters', {
    studioId: 's',
    endpointId: 'e',
    number: 1,
  });
  const body = '{"type":"appointment.booked","data":{}}';
  const timestamp = Math.floor(Date.now() / 1000);
  const headers = signatureHeaders({ id: 'message', timestamp, body }, [secret]);

  it('is accepted by the reference library', () => {
    expect(new Webhook(secret).verify(body, { ...headers })).toEqual(JSON.parse(body));
  });

  it('is accepted while the secret is being renewed, by either', () => {
    const renewed = endpointSecret('another key of thirty-two characters', {
      studioId: 's',
      endpointId: 'e',
      number: 2,
    });
    const both = signatureHeaders({ id: 'message', timestamp, body }, [renewed, secret]);
    for (const known of [secret, renewed]) expect(new Webhook(known).verify(body, { ...both })).toBeTruthy();
  });

  it.each([
    ['another body', `${body} `, headers],
    ['another id', body, { ...headers, 'webhook-id': 'other' }],
    ['another time', body, { ...headers, 'webhook-timestamp': String(timestamp - 1) }],
    ['an hour ago', body, signatureHeaders({ id: 'message', timestamp: timestamp - 3600, body }, [secret])],
  ])('is refused by it with %s', (_, text, changed) => {
    expect(() => new Webhook(secret).verify(text, { ...changed })).toThrow();
  });

  it('is that of the published example', () => {
    expect(
      signatureHeaders(
        { id: 'msg_p5jXN8AQM9LWM0D4loKWxJek', timestamp: 1614265330, body: '{"test": 2432232314}' },
        ['whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw'],
      )['webhook-signature'],
    ).toBe('v1,g0hM9SsE+OTPJTGt/tmIKtSyZlE3uFJELVlNIOLJ1OE=');
  });
});

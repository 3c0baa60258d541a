import { createHmac } from 'node:crypto';

/** Headers, signed content and form of the secret are those of the Standard Webhooks specification, version 1. */
const secretPrefix = 'whsec_';

/**
 * The secret of an endpoint, worked out from the server's key: it is stored nowhere. Raising its number makes a new one.
 */
export function endpointSecret(
  key: string,
  { studioId, endpointId, number }: { studioId: string; endpointId: string; number: number },
): string {
  const bytes = createHmac('sha256', key)
    .update(`webhook/${studioId}/${endpointId}/${number}`)
    .digest('base64');
  return `${secretPrefix}${bytes}`;
}

export interface SignedMessage {
  /** The same each time the message is sent, so that the receiver can tell a repetition. */
  readonly id: string;
  readonly body: string;
  /** When it is sent, in seconds since 1970; a receiver refuses what is some minutes off. */
  readonly timestamp: number;
}

/** The headers that prove who sent a message, with a signature by each of the secrets in force. */
export function signatureHeaders(
  message: SignedMessage,
  secrets: readonly string[],
): Readonly<Record<'webhook-id' | 'webhook-timestamp' | 'webhook-signature', string>> {
  const { id, timestamp, body } = message;
  const signatures = secrets.map((secret) => {
    const key = Buffer.from(secret.slice(secretPrefix.length), 'base64');
    return `v1,${createHmac('sha256', key).update(`${id}.${timestamp}.${body}`).digest('base64')}`;
  });
  return {
    'webhook-id': id,
    'webhook-timestamp': String(timestamp),
    'webhook-signature': signatures.join(' '),
  };
}

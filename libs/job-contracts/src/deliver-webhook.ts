import type { JobContract } from './contract.js';

/** Tell an API client's endpoint of one event. */
export const deliverWebhook: JobContract<'deliver-webhook', { deliveryId: string }> = {
  name: 'deliver-webhook',
  queue: 'webhooks',
};

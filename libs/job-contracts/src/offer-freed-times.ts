import type { JobContract } from './contract.js';

/** Go through a studio's waiting list: let offers run out, and offer what is free to the next in order. */
export const offerFreedTimes: JobContract<'offer-freed-times', Record<string, never>> = {
  name: 'offer-freed-times',
  queue: 'mail',
  share: 2,
};

import type { JobContract } from './contract.js';

/** Erase what a request for erasure is about: what need not be kept at once, the rest when its time is over. */
export const erasePerson: JobContract<'erase-person', { rightsRequestId: string }> = {
  name: 'erase-person',
  queue: 'exports',
};

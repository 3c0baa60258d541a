import type { JobContract } from './contract.js';

/** Open the tasks of a studio whose time has come, and close those whose reason is gone. */
export const openDueTasks: JobContract<'open-due-tasks', Record<string, never>> = {
  name: 'open-due-tasks',
  queue: 'upkeep',
};

import type { ImportState } from '@studio/database';

/** What may be done with a list in which states. It becomes `done` by itself once every row is seen to. */
export const importActions = {
  map: ['uploaded', 'ready'],
  decide: ['ready'],
  order: ['ready'],
  /** The clients stay; the list and what it said of those left out go. */
  delete: ['uploaded', 'ready', 'done'],
} as const satisfies Record<string, readonly ImportState[]>;

export type ImportAction = keyof typeof importActions;
export const importActionNames = Object.keys(importActions) as ImportAction[];

export const importActionsIn = (state: ImportState): ImportAction[] =>
  importActionNames.filter((name) => (importActions[name] as readonly ImportState[]).includes(state));

import type { TaskState } from '@studio/database';

/** What may be done with a task: in which states, and which state comes of it (null: it stays). */
export const taskActions = {
  finish: { from: ['open', 'snoozed'], to: 'done' },
  /** Out of sight until an instant; then it is open again by itself. */
  snooze: { from: ['open', 'snoozed'], to: 'snoozed' },
  assign: { from: ['open', 'snoozed'], to: null },
  /** For one that was done or snoozed by mistake. */
  reopen: { from: ['snoozed', 'done'], to: 'open' },
} as const satisfies Record<string, { readonly from: readonly TaskState[]; readonly to: TaskState | null }>;

export type TaskAction = keyof typeof taskActions;

export const taskActionNames = Object.keys(taskActions) as TaskAction[];

export function taskActionsIn(state: TaskState): TaskAction[] {
  return taskActionNames.filter((name) => (taskActions[name].from as readonly TaskState[]).includes(state));
}

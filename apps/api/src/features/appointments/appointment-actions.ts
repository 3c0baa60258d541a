import type { AppointmentState } from '@studio/database';

/** What may be done with an appointment: in which states, and which state comes of it (null: it stays). */
export const appointmentActions = {
  book: { from: ['held'], to: 'booked' },
  move: { from: ['held', 'booked'], to: null },
  cancel: { from: ['held', 'booked'], to: 'cancelled' },
  check_in: { from: ['booked'], to: 'checked_in' },
  mark_no_show: { from: ['booked'], to: 'no_show' },
  complete: { from: ['checked_in'], to: 'completed' },
  /** For a check-in or a no-show recorded by mistake. */
  reinstate: { from: ['checked_in', 'no_show'], to: 'booked' },
} as const satisfies Record<
  string,
  { readonly from: readonly AppointmentState[]; readonly to: AppointmentState | null }
>;

export type AppointmentAction = keyof typeof appointmentActions;

export const actionNames = Object.keys(appointmentActions) as AppointmentAction[];

export function actionsIn(state: AppointmentState): AppointmentAction[] {
  return actionNames.filter((name) =>
    (appointmentActions[name].from as readonly AppointmentState[]).includes(state),
  );
}

import type { Evaluation } from './evaluate.js';

export const deskNotices = ['may_be_booked', 'needs_a_call', 'not_before_clearance'] as const;

/** The one thing the front desk is told of a screening; never an answer or a finding. */
export type DeskNotice = (typeof deskNotices)[number];

/** Whoever may not ride is not booked on, whether that was found or cannot be ruled out. */
export function deskNotice({ permission }: Pick<Evaluation, 'permission'>): DeskNotice {
  if (permission.barred.includes('riding')) return 'not_before_clearance';
  return permission.level === 'full' ? 'may_be_booked' : 'needs_a_call';
}

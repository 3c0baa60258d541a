import type { Evaluation } from './evaluate.js';

export const deskNotices = ['may_be_booked', 'needs_a_call', 'not_before_clearance'] as const;

/** The one thing the front desk is told of a screening; never an answer or a finding. */
export type DeskNotice = (typeof deskNotices)[number];

export function deskNotice(evaluation: Pick<Evaluation, 'permission' | 'findings'>): DeskNotice {
  const raised = evaluation.findings.filter(({ result }) => result === 'raised');
  if (raised.some(({ permission }) => permission.level === 'none')) return 'not_before_clearance';
  return evaluation.permission.level === 'full' ? 'may_be_booked' : 'needs_a_call';
}

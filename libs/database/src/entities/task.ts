import { Column, Entity } from 'typeorm';
import { RecordedRow } from './columns.js';
import type { Role } from './user.js';

/** Every kind of task, and what record its subject is. */
export const taskSubjects = {
  /** Two days before a visit the client's intake is not in. */
  intake_missing: 'appointment',
  /** A referral case nobody has answered: from its deadline on, an urgent one at once. */
  referral_overdue: 'referral',
  /** A message came back: the address is wrong. */
  mail_bounced: 'message',
  /** A follow-up got no answer: ask by phone. */
  follow_up_unanswered: 'follow_up',
  /** The answers to a follow-up say what a fitter should read soon. */
  follow_up_to_read: 'follow_up',
  /** Nobody answered the offer of a freed time. */
  offer_expired: 'slot_offer',
  /** Shoe work is ready to be collected. */
  shoe_work_to_collect: 'shoe_work',
  /** A clearance holds no longer; what it allowed is barred again. */
  clearance_run_out: 'clearance',
  /** A message for a client without a mail address, to be read out by phone. */
  message_to_read_out: 'message',
  /** An API client's endpoint was disabled: it failed for days, or said that it is gone. */
  webhook_disabled: 'webhook_endpoint',
  /** A person asked for their data, its correction, restriction or erasure; due a week before it has to be answered. */
  rights_request: 'rights_request',
  /** Somebody opened a restricted record: read whether the reason holds. */
  record_opened: 'record_opening',
} as const;

export type TaskKind = keyof typeof taskSubjects;
export const taskKinds = Object.keys(taskSubjects) as TaskKind[];

export const taskStates = ['open', 'snoozed', 'done'] as const;
export type TaskState = (typeof taskStates)[number];

@Entity('tasks')
export class Task extends RecordedRow {
  @Column('text')
  kind: TaskKind;

  /** Whose inbox it is in. */
  @Column('text')
  role: Role;

  @Column('uuid', { name: 'client_id', nullable: true })
  clientId: string | null;

  @Column('uuid', { name: 'subject_id' })
  subjectId: string;

  @Column('timestamptz', { name: 'due_at', default: () => 'app_now()' })
  dueAt: Date;

  /** A snooze whose time has come counts as open, without anybody writing it down. */
  @Column('text', { default: 'open' })
  state: TaskState;

  @Column('timestamptz', { name: 'snoozed_until', nullable: true })
  snoozedUntil: Date | null;

  @Column('uuid', { name: 'assigned_to', nullable: true })
  assignedTo: string | null;

  @Column('timestamptz', { name: 'done_at', nullable: true })
  doneAt: Date | null;

  @Column('integer', { default: 1 })
  version: number;
}

/** One step of a task's history; nobody's when the reason for it came or went by itself. */
@Entity('task_changes')
export class TaskChange extends RecordedRow {
  @Column('uuid', { name: 'task_id' })
  taskId: string;

  @Column('text')
  action: string;

  @Column('text')
  state: TaskState;

  @Column('timestamptz', { name: 'snoozed_until', nullable: true })
  snoozedUntil: Date | null;

  @Column('uuid', { name: 'assigned_to', nullable: true })
  assignedTo: string | null;

  @Column('uuid', { name: 'changed_by', nullable: true })
  changedBy: string | null;
}

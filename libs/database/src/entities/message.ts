import type { MessageTemplateName } from '@studio/job-contracts';
import { Column, Entity } from 'typeorm';
import { RecordedRow } from './columns.js';

export const messageStates = ['queued', 'sending', 'sent', 'failed', 'gave_up', 'cancelled'] as const;
/**
 * `failed`: the mail server said never, at once or by a later report. `gave_up`: it said later until the tries were
 * used up. `cancelled`: not wanted or not allowed when its time came.
 */
export type MessageState = (typeof messageStates)[number];

export const messageChannels = ['mail', 'phone'] as const;
/** `phone`: a task for the desk to call, where the client has no address that works. */
export type MessageChannel = (typeof messageChannels)[number];

/** One message to one client or one of the staff: what is ordered, and what became of it. */
@Entity('messages')
export class Message extends RecordedRow {
  @Column('uuid', { name: 'client_id', nullable: true })
  clientId: string | null;

  @Column('uuid', { name: 'user_id', nullable: true })
  userId: string | null;

  @Column('text')
  template: MessageTemplateName;

  /** The record it is about. */
  @Column('uuid', { name: 'subject_id', nullable: true })
  subjectId: string | null;

  /** Values of placeholders, as they were when it was ordered. Links are taken out once it is settled. */
  @Column('jsonb', { default: {} })
  data: Record<string, string>;

  @Column('text', { default: 'mail' })
  channel: MessageChannel;

  @Column('text', { default: 'queued' })
  state: MessageState;

  @Column('timestamptz', { name: 'not_before', default: () => 'app_now()' })
  notBefore: Date;

  /** After this it would be of no use. */
  @Column('timestamptz', { name: 'expires_at', nullable: true })
  expiresAt: Date | null;

  @Column('integer', { default: 0 })
  attempts: number;

  @Column('text', { name: 'last_error', nullable: true })
  lastError: string | null;

  /** Fixed before the first try, so that a repeat after a crash is recognised (RFC 5322, 3.6.4). */
  @Column('text', { name: 'message_id', nullable: true })
  messageId: string | null;

  @Column('text', { nullable: true })
  address: string | null;

  @Column('text', { nullable: true })
  language: string | null;

  /** `standard-1` or `studio-3`. */
  @Column('text', { name: 'text_version', nullable: true })
  textVersion: string | null;

  @Column('text', { nullable: true })
  subject: string | null;

  /** As sent, without the addresses in it. */
  @Column('text', { nullable: true })
  body: string | null;

  /** By the machine's clock: while it is young, somebody is sending it. */
  @Column('timestamptz', { name: 'sending_since', nullable: true })
  sendingSince: Date | null;

  /** The turn it was given by the pace of its mail domain, by the machine's clock. */
  @Column('timestamptz', { name: 'turn_at', nullable: true })
  turnAt: Date | null;

  @Column('timestamptz', { name: 'sent_at', nullable: true })
  sentAt: Date | null;

  /** When a server reported that it could not be delivered (RFC 3464). */
  @Column('timestamptz', { name: 'bounced_at', nullable: true })
  bouncedAt: Date | null;

  /** SHA-256 of the secret in its unsubscribe address. */
  @Column('bytea', { name: 'unsubscribe_hash', nullable: true })
  unsubscribeHash: Buffer | null;

  /** The message it was sent again for. */
  @Column('uuid', { name: 'repeats_id', nullable: true })
  repeatsId: string | null;
}

/** A studio's own wording of a template, in versions; the newest is in force, and an empty one restores the standard. */
@Entity('message_texts')
export class MessageTextRow extends RecordedRow {
  @Column('text')
  template: MessageTemplateName;

  @Column('text')
  language: string;

  @Column('integer')
  version: number;

  @Column('text', { nullable: true })
  subject: string | null;

  @Column('text', { nullable: true })
  body: string | null;

  @Column('uuid', { name: 'created_by' })
  createdBy: string;
}

export const calendarNames = ['none', 'initials', 'full'] as const;
/** How a client is named in a calendar feed. */
export type CalendarNames = (typeof calendarNames)[number];

/** How a studio writes to its clients. A studio without a row has the defaults of the columns. */
@Entity('message_settings')
export class MessageSettings extends RecordedRow {
  /** The studio's name when absent. */
  @Column('text', { name: 'sender_name', nullable: true })
  senderName: string | null;

  @Column('text', { default: 'en' })
  language: string;

  @Column('time without time zone', { name: 'quiet_from', nullable: true })
  quietFrom: string | null;

  @Column('time without time zone', { name: 'quiet_until', nullable: true })
  quietUntil: string | null;

  /** Confirm bookings, and tell of moves and cancellations. */
  @Column('boolean', { name: 'announce_appointments', default: true })
  announceAppointments: boolean;

  @Column('boolean', { name: 'remind_two_days', default: true })
  remindTwoDays: boolean;

  @Column('boolean', { name: 'remind_two_hours', default: true })
  remindTwoHours: boolean;

  /** Attach an invitation a calendar program can take up (RFC 5546). */
  @Column('boolean', { name: 'attach_invitations', default: true })
  attachInvitations: boolean;

  @Column('text', { name: 'calendar_names', default: 'initials' })
  calendarNames: CalendarNames;

  @Column('integer', { default: 1 })
  version: number;
}

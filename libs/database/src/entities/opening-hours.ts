import { Column, Entity } from 'typeorm';
import { RecordedRow } from './columns.js';

/** Whose hours these are: one person's, one room's, one site's; with none of the three, the whole studio's. */
abstract class OwnedHours extends RecordedRow {
  @Column('uuid', { name: 'staff_id', nullable: true })
  staffId: string | null;

  @Column('uuid', { name: 'room_id', nullable: true })
  roomId: string | null;

  @Column('uuid', { name: 'site_id', nullable: true })
  siteId: string | null;
}

export interface BreakSpan {
  fromMinutes: number;
  untilMinutes: number;
}

/** Hours that return every week; minutes after midnight, by the clock of the place. */
@Entity('weekly_hours')
export class WeeklyHoursRow extends OwnedHours {
  /** Where a person works in these hours; null for any site. */
  @Column('uuid', { name: 'at_site_id', nullable: true })
  atSiteId: string | null;

  /** 1 Monday to 7 Sunday. */
  @Column('smallint', { array: true })
  weekdays: number[];

  @Column('integer', { name: 'from_minutes' })
  fromMinutes: number;

  @Column('integer', { name: 'until_minutes' })
  untilMinutes: number;

  @Column('jsonb')
  breaks: BreakSpan[];

  @Column('date', { name: 'valid_from' })
  validFrom: string;

  /** The last day they hold; null without end. */
  @Column('date', { name: 'valid_until', nullable: true })
  validUntil: string | null;

  @Column('integer', { default: 1 })
  version: number;
}

export const exceptionKinds = ['open', 'closed'] as const;
export type ExceptionKind = (typeof exceptionKinds)[number];
export const exceptionReasons = ['closure', 'holiday', 'leave', 'other_hours'] as const;
export type ExceptionReason = (typeof exceptionReasons)[number];

/** Days that are not as every week. */
@Entity('hours_exceptions')
export class HoursExceptionRow extends OwnedHours {
  @Column('text')
  kind: ExceptionKind;

  @Column('text')
  reason: ExceptionReason;

  @Column('text', { nullable: true })
  note: string | null;

  @Column('date', { name: 'first_day' })
  firstDay: string;

  @Column('date', { name: 'last_day' })
  lastDay: string;

  /** Both null for whole days. */
  @Column('integer', { name: 'from_minutes', nullable: true })
  fromMinutes: number | null;

  @Column('integer', { name: 'until_minutes', nullable: true })
  untilMinutes: number | null;

  @Column('integer', { default: 1 })
  version: number;
}

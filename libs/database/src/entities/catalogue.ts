import { Column, Entity } from 'typeorm';
import { RecordedRow, safeInteger } from './columns.js';

export const prerequisites = ['intake', 'clearance'] as const;
export type Prerequisite = (typeof prerequisites)[number];

@Entity('services')
export class Service extends RecordedRow {
  @Column('text')
  name: string;

  @Column('integer', { name: 'duration_minutes' })
  durationMinutes: number;

  /** Fitter and room are taken so long before and after the visit too. */
  @Column('integer', { name: 'buffer_before_minutes', default: 0 })
  bufferBeforeMinutes: number;

  @Column('integer', { name: 'buffer_after_minutes', default: 0 })
  bufferAfterMinutes: number;

  /** A bench is taken so long from the end of the visit; 0 when nothing cures. */
  @Column('integer', { name: 'curing_minutes', default: 0 })
  curingMinutes: number;

  @Column('text', { name: 'required_skills', array: true })
  requiredSkills: string[];

  @Column('text', { name: 'required_equipment', array: true })
  requiredEquipment: string[];

  /** What must be in hand before the client is checked in. */
  @Column('text', { array: true })
  prerequisites: Prerequisite[];

  @Column('bigint', { name: 'price_minor', nullable: true, transformer: safeInteger })
  priceMinor: number | null;

  @Column('text', { nullable: true })
  currency: string | null;

  /** Percent, as decimal text. */
  @Column('numeric', { name: 'tax_rate_percent', default: 0 })
  taxRatePercent: string;

  /** Its rate is then that of the class on the day; null: the rate above. */
  @Column('text', { name: 'tax_class', nullable: true })
  taxClass: string | null;

  @Column('boolean', { name: 'tax_included', default: true })
  taxIncluded: boolean;

  @Column('boolean', { name: 'online_bookable', default: false })
  onlineBookable: boolean;

  @Column('integer', { name: 'follow_ups_included', default: 0 })
  followUpsIncluded: number;

  /** Bookable from so long after now … */
  @Column('integer', { name: 'lead_time_minutes', default: 0 })
  leadTimeMinutes: number;

  /** … up to so many days ahead; null for any day. */
  @Column('integer', { name: 'horizon_days', nullable: true })
  horizonDays: number | null;

  /** A cancellation later than so long before the visit is a late one. */
  @Column('integer', { name: 'cancellation_notice_hours', default: 24 })
  cancellationNoticeHours: number;

  @Column('timestamptz', { name: 'retired_at', nullable: true })
  retiredAt: Date | null;

  @Column('integer', { default: 1 })
  version: number;
}

/** One of the places a studio works at. A studio with one place may record none. */
@Entity('sites')
export class Site extends RecordedRow {
  @Column('text')
  name: string;

  /** IANA name; the site's hours are kept in it. */
  @Column('text', { name: 'time_zone' })
  timeZone: string;

  @Column('integer', { default: 1 })
  version: number;
}

@Entity('rooms')
export class Room extends RecordedRow {
  @Column('text')
  name: string;

  @Column('uuid', { name: 'site_id', nullable: true })
  siteId: string | null;

  @Column('text', { array: true })
  equipment: string[];

  @Column('integer', { default: 1 })
  version: number;
}

/** Where shoe work lies while it cures. */
@Entity('benches')
export class Bench extends RecordedRow {
  @Column('text')
  name: string;

  @Column('uuid', { name: 'site_id', nullable: true })
  siteId: string | null;

  @Column('integer', { default: 1 })
  version: number;
}

import { Column, Entity } from 'typeorm';
import { RecordedRow } from './columns.js';

@Entity('waiting_list_settings')
export class WaitingListSettings extends RecordedRow {
  /** How long a time is kept for whom it was offered to. */
  @Column('integer', { name: 'offer_minutes' })
  offerMinutes: number;

  @Column('integer', { default: 1 })
  version: number;
}

/** Long enough to see a mail in a working day, short enough for the next in the list. House rule. */
export const usualOfferMinutes = 120;

export const wishStates = ['waiting', 'offered', 'booked', 'unanswered', 'run_out', 'withdrawn'] as const;
/** `unanswered`: an offer ran out, and nothing more is offered before somebody has asked. */
export type WishState = (typeof wishStates)[number];

/** By the clock of the place, like 08:00 to 12:00. */
export interface WishedTime {
  readonly from: string;
  readonly until: string;
}

/** A client who waits for a time. */
@Entity('slot_wishes')
export class SlotWish extends RecordedRow {
  @Column('uuid', { name: 'client_id' })
  clientId: string;

  @Column('uuid', { name: 'service_id' })
  serviceId: string;

  /** Null: any who can. */
  @Column('uuid', { name: 'fitter_id', nullable: true })
  fitterId: string | null;

  /** Null: any. */
  @Column('uuid', { name: 'site_id', nullable: true })
  siteId: string | null;

  /** 1 for Monday to 7 for Sunday (ISO 8601). */
  @Column('integer', { array: true })
  weekdays: number[];

  /** The visit begins in one of these; at any time when empty. */
  @Column('jsonb')
  times: WishedTime[];

  @Column('date', { name: 'first_day' })
  firstDay: string;

  @Column('date', { name: 'last_day' })
  lastDay: string;

  @Column('text', { default: 'waiting' })
  state: WishState;

  @Column('integer', { default: 1 })
  version: number;
}

export const offerStates = ['open', 'accepted', 'declined', 'expired', 'withdrawn'] as const;
/** `withdrawn`: the time was taken back before anybody answered. */
export type OfferState = (typeof offerStates)[number];

/** A time that is held for a client of the waiting list. */
@Entity('slot_offers')
export class SlotOffer extends RecordedRow {
  @Column('uuid', { name: 'wish_id' })
  wishId: string;

  @Column('uuid', { name: 'appointment_id' })
  appointmentId: string;

  @Column('timestamptz', { name: 'starts_at' })
  startsAt: Date;

  @Column('text', { default: 'open' })
  state: OfferState;

  @Column('timestamptz', { name: 'expires_at' })
  expiresAt: Date;

  /** SHA-256 of the one-time link's secret. */
  @Column('bytea', { name: 'link_hash' })
  linkHash: Buffer;

  @Column('timestamptz', { name: 'answered_at', nullable: true })
  answeredAt: Date | null;

  /** Null when the client answered by the link. */
  @Column('uuid', { name: 'answered_by', nullable: true })
  answeredBy: string | null;
}

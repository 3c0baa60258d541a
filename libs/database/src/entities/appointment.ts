import { Column, Entity } from 'typeorm';
import { RecordedRow } from './columns.js';

export const appointmentStates = [
  'held',
  'booked',
  'checked_in',
  'completed',
  'no_show',
  'cancelled',
  'lapsed',
] as const;
/** A hold whose time has run out takes no time any more; it is written down as `lapsed` by whoever wants its time next. */
export type AppointmentState = (typeof appointmentStates)[number];

export const cancellers = ['client', 'studio'] as const;
export type Canceller = (typeof cancellers)[number];

@Entity('appointments')
export class Appointment extends RecordedRow {
  @Column('uuid', { name: 'client_id' })
  clientId: string;

  @Column('uuid', { name: 'service_id' })
  serviceId: string;

  @Column('uuid', { name: 'fitter_id' })
  fitterId: string;

  @Column('uuid', { name: 'room_id' })
  roomId: string;

  /** Half-open: one visit may begin at the instant another ends. */
  @Column('tstzrange')
  during: string;

  /** The visit with its buffers: what it takes of fitter and room. */
  @Column('tstzrange')
  occupied: string;

  @Column('uuid', { name: 'bench_id', nullable: true })
  benchId: string | null;

  /** From the end of the visit, on the bench. */
  @Column('tstzrange', { nullable: true })
  curing: string | null;

  @Column('text', { default: 'booked' })
  state: AppointmentState;

  @Column('timestamptz', { name: 'hold_expires_at', nullable: true })
  holdExpiresAt: Date | null;

  @Column('text', { name: 'cancel_reason', nullable: true })
  cancelReason: string | null;

  @Column('text', { name: 'cancelled_by', nullable: true })
  cancelledBy: Canceller | null;

  @Column('boolean', { name: 'cancelled_late', nullable: true })
  cancelledLate: boolean | null;

  /** Visits that belong together share it. */
  @Column('uuid', { name: 'series_id', nullable: true })
  seriesId: string | null;

  /** 1 for the first visit of the series. */
  @Column('integer', { name: 'series_position', nullable: true })
  seriesPosition: number | null;

  @Column('integer', { default: 1 })
  version: number;
}

/** One step of an appointment's history: what was done, by whom, and how it stood afterwards. */
@Entity('appointment_changes')
export class AppointmentChange extends RecordedRow {
  @Column('uuid', { name: 'appointment_id' })
  appointmentId: string;

  @Column('text')
  action: string;

  @Column('text')
  state: AppointmentState;

  @Column('tstzrange')
  during: string;

  @Column('uuid', { name: 'fitter_id' })
  fitterId: string;

  @Column('uuid', { name: 'room_id' })
  roomId: string;

  @Column('uuid', { name: 'bench_id', nullable: true })
  benchId: string | null;

  @Column('text', { nullable: true })
  reason: string | null;

  @Column('uuid', { name: 'changed_by', nullable: true })
  changedBy: string | null;
}

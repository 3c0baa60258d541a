import { Column, Entity } from 'typeorm';
import { RecordedRow } from './columns.js';

export const appointmentStates = ['booked', 'cancelled'] as const;
export type AppointmentState = (typeof appointmentStates)[number];

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

  @Column('text', { default: 'booked' })
  state: AppointmentState;

  @Column('text', { name: 'cancel_reason', nullable: true })
  cancelReason: string | null;

  @Column('integer', { default: 1 })
  version: number;
}

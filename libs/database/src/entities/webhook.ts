import { Column, Entity } from 'typeorm';
import { RecordedRow } from './columns.js';

export const disabledReasons = ['owner', 'failing', 'gone'] as const;

/** Where an API client wants to be told of events. Its secret is worked out, not stored. */
@Entity('webhook_endpoints')
export class WebhookEndpoint extends RecordedRow {
  @Column('text')
  url: string;

  @Column('text', { nullable: true })
  description: string | null;

  @Column('text', { array: true })
  events: string[];

  /** Which secret is in force. */
  @Column('integer', { name: 'secret_number', default: 1 })
  secretNumber: number;

  /** When it came into force; for a day after that the one before signs too. */
  @Column('timestamptz', { name: 'secret_renewed_at', nullable: true })
  secretRenewedAt: Date | null;

  /** Since when nothing has been delivered, though something should have been. */
  @Column('timestamptz', { name: 'failing_since', nullable: true })
  failingSince: Date | null;

  @Column('timestamptz', { name: 'disabled_at', nullable: true })
  disabledAt: Date | null;

  @Column('text', { name: 'disabled_because', nullable: true })
  disabledBecause: (typeof disabledReasons)[number] | null;

  @Column('integer', { default: 1 })
  version: number;

  @Column('uuid', { name: 'created_by' })
  createdBy: string;
}

@Entity('webhook_events')
export class WebhookEvent extends RecordedRow {
  @Column('text')
  type: string;

  @Column('uuid', { name: 'subject_id' })
  subjectId: string;
}

export const deliveryStates = ['waiting', 'delivered', 'failed'] as const;
export type DeliveryState = (typeof deliveryStates)[number];

/** The telling of one event to one endpoint. */
@Entity('webhook_deliveries')
export class WebhookDelivery extends RecordedRow {
  @Column('uuid', { name: 'endpoint_id' })
  endpointId: string;

  @Column('uuid', { name: 'event_id' })
  eventId: string;

  @Column('text', { default: 'waiting' })
  state: DeliveryState;

  @Column('integer', { default: 0 })
  attempts: number;

  @Column('timestamptz', { name: 'last_tried_at', nullable: true })
  lastTriedAt: Date | null;

  /** Of HTTP; null when there was no answer. */
  @Column('integer', { name: 'last_status', nullable: true })
  lastStatus: number | null;

  @Column('integer', { name: 'last_took_ms', nullable: true })
  lastTookMs: number | null;

  @Column('text', { name: 'last_error', nullable: true })
  lastError: string | null;

  @Column('timestamptz', { name: 'delivered_at', nullable: true })
  deliveredAt: Date | null;
}

import { Column, Entity } from 'typeorm';
import { RecordedRow } from './columns.js';

@Entity('clients')
export class Client extends RecordedRow {
  @Column('text', { name: 'given_name' })
  givenName: string;

  @Column('text', { name: 'family_name' })
  familyName: string;

  @Column('text', { nullable: true })
  email: string | null;

  @Column('text', { nullable: true })
  phone: string | null;

  @Column('date', { name: 'born_on', nullable: true })
  bornOn: string | null;

  /** As above in the form two can be compared by (E.164); null where no country code was given. */
  @Column('text', { name: 'phone_e164', nullable: true })
  phoneE164: string | null;

  @Column('text', { array: true })
  tags: string[];

  @Column('text', { nullable: true })
  note: string | null;

  /** Whatever was consented to: nothing is sent. */
  @Column('boolean', { name: 'do_not_contact', default: false })
  doNotContact: boolean;

  /** What the client reads (BCP 47, like `de` or `de-AT`); null: the studio's language. */
  @Column('text', { nullable: true })
  language: string | null;

  /** The address a mail server refused for good. While it is still the client's, nothing is mailed to it. */
  @Column('text', { name: 'undeliverable_email', nullable: true })
  undeliverableEmail: string | null;

  /** The client who consents for this one while it is a minor. */
  @Column('uuid', { name: 'guardian_id', nullable: true })
  guardianId: string | null;

  /** Raised by every change; a change names the version it was made from. */
  @Column('integer', { default: 1 })
  version: number;
}

export const consentKinds = ['data', 'health_data', 'contact'] as const;
export type ConsentKind = (typeof consentKinds)[number];

/** Consent as it was given: for what, to which wording, when, taken by whom; and its withdrawal. */
@Entity('client_consents')
export class ClientConsent extends RecordedRow {
  @Column('uuid', { name: 'client_id' })
  clientId: string;

  @Column('text')
  kind: ConsentKind;

  @Column('text', { name: 'text_version' })
  textVersion: string;

  @Column('timestamptz', { name: 'given_at', default: () => 'app_now()' })
  givenAt: Date;

  /** Null when the client gave it by an intake link. */
  @Column('uuid', { name: 'taken_by', nullable: true })
  takenBy: string | null;

  /** Who gave it for a minor. */
  @Column('uuid', { name: 'guardian_id', nullable: true })
  guardianId: string | null;

  @Column('timestamptz', { name: 'withdrawn_at', nullable: true })
  withdrawnAt: Date | null;

  /** Null when it stands, or when the client withdrew it by a link. */
  @Column('uuid', { name: 'withdrawal_recorded_by', nullable: true })
  withdrawalRecordedBy: string | null;
}

import { Column, Entity } from 'typeorm';
import { sealedColumn } from '../sealed-fields/sealed-fields.js';
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

  @Column('text', { nullable: true, transformer: sealedColumn })
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

  /** The record of the same person that this one was merged into: always a surviving one. */
  @Column('uuid', { name: 'merged_into', nullable: true })
  mergedInto: string | null;

  @Column('timestamptz', { name: 'merged_at', nullable: true })
  mergedAt: Date | null;

  /** Since when the record is only kept: nothing is sent, counted or added (GDPR, article 18). */
  @Column('timestamptz', { name: 'restricted_at', nullable: true })
  restrictedAt: Date | null;

  /** Nobody's record: visits of persons who were erased are its, so that hours and rooms still add up. */
  @Column('boolean', { name: 'stands_for_erased', default: false })
  standsForErased: boolean;

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

/** Two records of one person became one, and perhaps two again. Nothing else is moved; the records are read together. */
@Entity('client_merges')
export class ClientMerge extends RecordedRow {
  @Column('uuid', { name: 'surviving_id' })
  survivingId: string;

  @Column('uuid', { name: 'merged_id' })
  mergedId: string;

  /** Records that were merged into the merged one before, and came along. */
  @Column('uuid', { name: 'moved_ids', array: true })
  movedIds: string[];

  /** What the surviving record was completed by: those of its fields that changed, as they were before … */
  @Column('jsonb', { name: 'fields_before', transformer: sealedColumn })
  fieldsBefore: object;

  /** … and as the merge left them. */
  @Column('jsonb', { name: 'fields_after', transformer: sealedColumn })
  fieldsAfter: object;

  @Column('uuid', { name: 'merged_by' })
  mergedBy: string;

  @Column('timestamptz', { name: 'undone_at', nullable: true })
  undoneAt: Date | null;

  @Column('uuid', { name: 'undone_by', nullable: true })
  undoneBy: string | null;
}

/** Kept as it was written; a correction stands beside it. */
@Entity('client_notes')
export class ClientNote extends RecordedRow {
  @Column('uuid', { name: 'client_id' })
  clientId: string;

  @Column('text', { transformer: sealedColumn })
  text: string;

  @Column('uuid', { name: 'corrects_id', nullable: true })
  correctsId: string | null;

  @Column('uuid', { name: 'written_by' })
  writtenBy: string;
}

/** What the other one is to a client, and the client therefore to the other. */
export const clientLinkKinds = {
  parent: 'child',
  child: 'parent',
  partner: 'partner',
  sibling: 'sibling',
  team_mate: 'team_mate',
  coach: 'coached_rider',
  coached_rider: 'coach',
} as const;
export type ClientLinkKind = keyof typeof clientLinkKinds;

/** Family or team, written down once for both: the lower id comes first. */
@Entity('client_links')
export class ClientLink extends RecordedRow {
  @Column('uuid', { name: 'client_id' })
  clientId: string;

  @Column('uuid', { name: 'other_id' })
  otherId: string;

  /** What `otherId` is to `clientId`. */
  @Column('text')
  kind: ClientLinkKind;

  @Column('uuid', { name: 'linked_by' })
  linkedBy: string;
}

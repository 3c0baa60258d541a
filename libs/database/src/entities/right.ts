import { Column, Entity } from 'typeorm';
import { RecordedRow } from './columns.js';

export const rightsRequestKinds = ['access', 'correction', 'restriction', 'erasure'] as const;
/** `access`: a copy of everything, also to take elsewhere (GDPR, articles 15 and 20). */
export type RightsRequestKind = (typeof rightsRequestKinds)[number];

export const rightsRequestStates = ['received', 'identity_checked', 'under_way', 'done', 'refused'] as const;
export type RightsRequestState = (typeof rightsRequestStates)[number];

/** What a person asked of the studio about their own data, and what became of it. */
@Entity('rights_requests')
export class RightsRequest extends RecordedRow {
  /** Null once the person is erased: that there was a request stays. */
  @Column('uuid', { name: 'client_id', nullable: true })
  clientId: string | null;

  @Column('text')
  kind: RightsRequestKind;

  @Column('text', { default: 'received' })
  state: RightsRequestState;

  @Column('date', { name: 'received_on' })
  receivedOn: string;

  /** The last day to answer on. */
  @Column('date', { name: 'due_on' })
  dueOn: string;

  /** Why it takes up to two months more. */
  @Column('text', { name: 'extended_because', nullable: true })
  extendedBecause: string | null;

  @Column('text', { name: 'identity_checked_how', nullable: true })
  identityCheckedHow: string | null;

  @Column('timestamptz', { name: 'decided_at', nullable: true })
  decidedAt: Date | null;

  @Column('uuid', { name: 'decided_by', nullable: true })
  decidedBy: string | null;

  /** Why it was refused, or what was done. */
  @Column('text', { name: 'decision', nullable: true })
  decision: string | null;

  @Column('uuid', { name: 'recorded_by' })
  recordedBy: string;

  @Column('integer', { default: 1 })
  version: number;
}

export const personExportStates = ['ordered', 'ready', 'failed', 'expired'] as const;
export type PersonExportState = (typeof personExportStates)[number];

/** Everything that is kept of a person, in one archive; the bytes are in the storage, under the row's id. */
@Entity('person_exports')
export class PersonExport extends RecordedRow {
  @Column('uuid', { name: 'request_id' })
  requestId: string;

  @Column('uuid', { name: 'client_id' })
  clientId: string;

  @Column('text', { default: 'ordered' })
  state: PersonExportState;

  @Column('timestamptz', { name: 'finished_at', nullable: true })
  finishedAt: Date | null;

  /** The archive is removed then. */
  @Column('timestamptz', { name: 'expires_at', nullable: true })
  expiresAt: Date | null;

  /** SHA-256 of the secret of the link that was mailed; null when none was, or it was used. */
  @Column('bytea', { name: 'link_hash', nullable: true })
  linkHash: Buffer | null;

  @Column('timestamptz', { name: 'fetched_at', nullable: true })
  fetchedAt: Date | null;

  @Column('uuid', { name: 'ordered_by' })
  orderedBy: string;
}

export const personCategories = ['contact', 'health_record', 'accounts'] as const;
/** What of a person is erased together, since the law asks it to be kept equally long. */
export type PersonCategory = (typeof personCategories)[number];

/** That a part of a person's data is to be erased, and from which day on. Written by the worker alone. */
@Entity('erasures')
export class Erasure extends RecordedRow {
  @Column('uuid', { name: 'request_id' })
  requestId: string;

  /** Null once the person is erased. */
  @Column('uuid', { name: 'client_id', nullable: true })
  clientId: string | null;

  @Column('text')
  category: PersonCategory;

  @Column('date', { name: 'erase_on' })
  eraseOn: string;

  /** The law that asks for it to be kept until then; null when nothing does. */
  @Column('text', { name: 'kept_by_law', nullable: true })
  keptByLaw: string | null;

  @Column('timestamptz', { name: 'erased_at', nullable: true })
  erasedAt: Date | null;
}

/** By which country's law a studio keeps records. */
@Entity('retention_choices')
export class RetentionChoice extends RecordedRow {
  @Column('text')
  country: string;

  /** Whether the law of health records binds the studio. */
  @Column('boolean', { name: 'bound_by_health_law' })
  boundByHealthLaw: boolean;

  @Column('integer', { default: 1 })
  version: number;
}

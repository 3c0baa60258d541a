import { Column, Entity } from 'typeorm';
import { RecordedRow } from './columns.js';

export const importStates = ['uploaded', 'ready', 'ordered', 'done'] as const;
export type ImportState = (typeof importStates)[number];

/** A list of clients from elsewhere. */
@Entity('client_imports')
export class ClientImport extends RecordedRow {
  @Column('text', { default: 'uploaded' })
  state: ImportState;

  @Column('text')
  charset: string;

  @Column('text')
  separator: string;

  @Column('text', { array: true })
  headers: string[];

  /** Which column holds what, and how days are written. */
  @Column('jsonb', { nullable: true })
  mapping: object | null;

  @Column('uuid', { name: 'uploaded_by' })
  uploadedBy: string;

  @Column('uuid', { name: 'ordered_by', nullable: true })
  orderedBy: string | null;

  @Column('timestamptz', { name: 'done_at', nullable: true })
  doneAt: Date | null;

  @Column('integer', { default: 1 })
  version: number;
}

export const importDecisions = ['unless_duplicate', 'import', 'leave_out'] as const;
export type ImportDecision = (typeof importDecisions)[number];

export const importRowStates = ['unread', 'ready', 'invalid', 'imported', 'left_out'] as const;
export type ImportRowState = (typeof importRowStates)[number];

/** What a row says of a client, in the form the client is kept in. */
export interface ImportedFields {
  readonly givenName: string;
  readonly familyName: string;
  readonly email?: string;
  readonly phone?: string;
  readonly phoneE164?: string;
  readonly bornOn?: string;
  readonly tags?: readonly string[];
  readonly note?: string;
  readonly doNotContact?: boolean;
}

/** A row of the list; what it said is kept only until it is a client. */
@Entity('client_import_rows')
export class ClientImportRow extends RecordedRow {
  @Column('uuid', { name: 'import_id' })
  importId: string;

  /** 1 for the first row after the headers. */
  @Column('integer', { name: 'row_number' })
  rowNumber: number;

  @Column('text', { array: true })
  cells: string[];

  @Column('jsonb', { nullable: true })
  fields: ImportedFields | null;

  @Column('jsonb')
  problems: object[];

  /** An earlier row of the list with the same address or number. */
  @Column('integer', { name: 'same_as_row', nullable: true })
  sameAsRow: number | null;

  @Column('text', { default: 'unless_duplicate' })
  decision: ImportDecision;

  @Column('text', { default: 'unread' })
  state: ImportRowState;

  /** The client it became, or for one left out the client it may be. */
  @Column('uuid', { name: 'client_id', nullable: true })
  clientId: string | null;
}

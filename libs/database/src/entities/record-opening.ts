import { Column, Entity } from 'typeorm';
import { sealedColumn } from '../sealed-fields/sealed-fields.js';
import { RecordedRow } from './columns.js';

/** What a restricted record may be used for; Regulation (EU) 2016/679, article 18 (2). */
export const openingGrounds = [
  'consent_of_the_person',
  'legal_claim',
  'protection_of_another_person',
  'important_public_interest',
] as const;
export type OpeningGround = (typeof openingGrounds)[number];

/** Somebody of the studio reads a restricted record for a while, and said why. */
@Entity('record_openings')
export class RecordOpening extends RecordedRow {
  @Column('uuid', { name: 'client_id' })
  clientId: string;

  @Column('uuid', { name: 'opened_by' })
  openedBy: string;

  @Column('text')
  ground: OpeningGround;

  @Column('text', { transformer: sealedColumn })
  reason: string;

  @Column('timestamptz', { name: 'expires_at' })
  expiresAt: Date;
}

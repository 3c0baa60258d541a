import { Column, Entity } from 'typeorm';
import { RecordedRow } from './columns.js';

export type FitSheetState = 'ordered' | 'ready' | 'failed';

/** A fit sheet, made once from the record as it then was; the documents are in the storage, under the row's id. */
@Entity('fit_sheets')
export class FitSheetRow extends RecordedRow {
  @Column('uuid', { name: 'fit_session_id' })
  fitSessionId: string;

  @Column('text')
  audience: 'rider' | 'studio';

  @Column('text')
  paper: 'a4' | 'letter';

  @Column('text')
  lengths: 'mm' | 'mm_and_inch';

  /** Null: the rider's. */
  @Column('text', { nullable: true })
  language: 'en' | 'de' | null;

  @Column('text', { default: 'ordered' })
  state: FitSheetState;

  /** Names of the drawings there are, each an SVG document of its own. */
  @Column('text', { array: true, default: [] })
  figures: string[];

  @Column('uuid', { name: 'ordered_by' })
  orderedBy: string;

  /** Whether the rider is told by mail once it is ready. */
  @Column('boolean', { name: 'tell_rider', default: false })
  tellRider: boolean;

  /** SHA-256 of the link's secret, set when the mail is prepared. */
  @Column('bytea', { name: 'link_hash', nullable: true })
  linkHash: Buffer | null;

  @Column('timestamptz', { name: 'link_expires_at', nullable: true })
  linkExpiresAt: Date | null;

  @Column('timestamptz', { name: 'finished_at', nullable: true })
  finishedAt: Date | null;
}

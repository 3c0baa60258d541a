import { Column, Entity } from 'typeorm';
import { RecordedRow } from './columns.js';

/** What captured motion of one leg shows. */
@Entity('motion_recordings')
export class MotionRecording extends RecordedRow {
  @Column('uuid', { name: 'fit_session_id' })
  fitSessionId: string;

  @Column('text')
  side: 'left' | 'right';

  /** How it was filmed. */
  @Column('jsonb')
  film: object;

  /** Of the text that was handed in, hexadecimal; the text itself is not kept. */
  @Column('text')
  sha256: string;

  /** A `Motion` of fit-math: angles over the turn with their standard deviations, the foot pitch as a series. */
  @Column('jsonb')
  result: object;

  @Column('text', { name: 'formula_version' })
  formulaVersion: string;

  @Column('uuid', { name: 'imported_by' })
  importedBy: string;
}

import { Column, Entity } from 'typeorm';
import { RecordedRow } from './columns.js';

/** The last turn of a repeating job that a studio has had. */
@Entity('schedule_turns')
export class ScheduleTurn extends RecordedRow {
  @Column('text')
  schedule: string;

  /** Names the turn; later ones sort after earlier ones. */
  @Column('text')
  turn: string;
}

import { Column, Entity } from 'typeorm';
import { RecordedRow } from './columns.js';

@Entity('bikes')
export class Bike extends RecordedRow {
  @Column('uuid', { name: 'client_id' })
  clientId: string;

  @Column('text')
  name: string;

  @Column('double precision', { name: 'crank_length_mm' })
  crankLengthMm: number;

  /** Direction from the bottom bracket in which the saddle moves, to the horizontal. */
  @Column('double precision', { name: 'seat_tube_angle_deg' })
  seatTubeAngleDeg: number;
}

export const holePatterns = ['three_bolt', 'two_bolt', 'four_bolt'] as const;
export type HolePattern = (typeof holePatterns)[number];

@Entity('shoes')
export class Shoe extends RecordedRow {
  @Column('uuid', { name: 'client_id' })
  clientId: string;

  @Column('text')
  name: string;

  @Column('double precision', { name: 'outer_length_mm' })
  outerLengthMm: number;

  @Column('text', { name: 'hole_pattern' })
  holePattern: HolePattern;

  /** Cleat centre at the front end of the slots, from the heel end of the shoe. */
  @Column('double precision', { name: 'slot_front_from_heel_mm' })
  slotFrontFromHeelMm: number;

  /** Cleat centre at the rear end of the slots, from the heel end of the shoe. */
  @Column('double precision', { name: 'slot_rear_from_heel_mm' })
  slotRearFromHeelMm: number;

  /** The sole is cut through by a channel under the arch. */
  @Column('boolean', { name: 'arch_channel' })
  archChannel: boolean;
}

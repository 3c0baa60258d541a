import { Column, Entity } from 'typeorm';
import { RecordedRow } from './columns.js';

export const bikeKinds = [
  'road',
  'gravel',
  'cyclocross',
  'time_trial',
  'triathlon',
  'track',
  'mountain',
  'touring',
  'city',
  'recumbent',
  'stationary',
  'other',
] as const;
export type BikeKind = (typeof bikeKinds)[number];

export const bikePartKinds = ['stem', 'spacers', 'seatpost', 'saddle', 'bars', 'cranks', 'pedals'] as const;
export type BikePartKind = (typeof bikePartKinds)[number];

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

  @Column('text', { default: 'other' })
  kind: BikeKind;

  /** Vertical, bottom bracket to the top of the head tube; null like reach and angle: the frame is not known. */
  @Column('double precision', { name: 'stack_mm', nullable: true })
  stackMm: number | null;

  @Column('double precision', { name: 'reach_mm', nullable: true })
  reachMm: number | null;

  @Column('double precision', { name: 'head_tube_angle_deg', nullable: true })
  headTubeAngleDeg: number | null;

  /** Where the rider meets the bike, measured; a frame that is not known needs no more. */
  @Column('jsonb', { name: 'contact_points', nullable: true })
  contactPoints: object | null;

  @Column('text', { array: true, default: '{}' })
  uses: string[];

  @Column('integer', { default: 1 })
  version: number;

  /** When it was put away; null while it is used. */
  @Column('timestamptz', { name: 'archived_at', nullable: true })
  archivedAt: Date | null;
}

/** A part by kind, from when to when. */
@Entity('bike_parts')
export class BikePart extends RecordedRow {
  @Column('uuid', { name: 'bike_id' })
  bikeId: string;

  @Column('text')
  kind: BikePartKind;

  @Column('text', { nullable: true })
  description: string | null;

  /** Measures by kind of part. */
  @Column('jsonb')
  facts: object;

  @Column('timestamptz', { name: 'valid_from' })
  validFrom: Date;

  /** Null: in use. */
  @Column('timestamptz', { name: 'valid_to', nullable: true })
  validTo: Date | null;

  @Column('uuid', { name: 'fitted_by' })
  fittedBy: string;

  @Column('uuid', { name: 'removed_by', nullable: true })
  removedBy: string | null;
}

export const holePatterns = ['three_bolt', 'two_bolt', 'four_bolt'] as const;
export type HolePattern = (typeof holePatterns)[number];

export const soleCurves = ['flat', 'slight', 'strong'] as const;
export type SoleCurve = (typeof soleCurves)[number];
export const soleMaterials = ['carbon', 'plastic', 'composite', 'rubber', 'other'] as const;
export type SoleMaterial = (typeof soleMaterials)[number];

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

  /** The length of the foot it is made for (ISO 9407). */
  @Column('double precision', { name: 'foot_length_mm', nullable: true })
  footLengthMm: number | null;

  /** As marked on the shoe. */
  @Column('text', { name: 'size_system', nullable: true })
  sizeSystem: string | null;

  @Column('double precision', { nullable: true })
  size: number | null;

  /** Middle of the bolts' line, from the heel end of the shoe. */
  @Column('double precision', { name: 'bolt_line_from_heel_mm', nullable: true })
  boltLineFromHeelMm: number | null;

  @Column('text', { name: 'sole_curve', nullable: true })
  soleCurve: SoleCurve | null;

  @Column('text', { name: 'sole_material', nullable: true })
  soleMaterial: SoleMaterial | null;

  @Column('integer', { default: 1 })
  version: number;

  /** When the pair was put away; null while it is used. */
  @Column('timestamptz', { name: 'archived_at', nullable: true })
  archivedAt: Date | null;
}

/** A part on one shoe of a pair, by kind, from when to when. */
@Entity('shoe_hardware')
export class ShoeHardware extends RecordedRow {
  @Column('uuid', { name: 'shoe_id' })
  shoeId: string;

  @Column('text')
  side: 'left' | 'right';

  @Column('text')
  kind: string;

  @Column('text', { nullable: true })
  note: string | null;

  @Column('timestamptz', { name: 'valid_from' })
  validFrom: Date;

  /** Null: mounted. */
  @Column('timestamptz', { name: 'valid_to', nullable: true })
  validTo: Date | null;

  @Column('uuid', { name: 'fitted_by' })
  fittedBy: string;

  @Column('uuid', { name: 'removed_by', nullable: true })
  removedBy: string | null;
}

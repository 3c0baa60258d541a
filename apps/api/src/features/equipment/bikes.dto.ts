import { ApiProperty, PartialType } from '@nestjs/swagger';
import { bikeKinds, bikePartKinds, type BikeKind, type BikePartKind } from '@studio/database';
import { holePatterns, type HolePattern } from '@studio/fit-math';
import {
  BooleanField,
  EnumField,
  EnumListField,
  InstantField,
  NestedField,
  NumberField,
  TextField,
} from '../../http/fields.js';
import { PageQuery } from '../../http/paging.js';

export const bikeUses = [
  'racing',
  'time_trial',
  'long_rides',
  'training',
  'touring',
  'commuting',
  'off_road',
  'indoor',
] as const;
export type BikeUse = (typeof bikeUses)[number];

export class FrameRequest {
  @NumberField({
    min: 300,
    max: 800,
    description: 'Vertical, bottom bracket to the top of the head tube.',
    example: 560,
  })
  stackMm: number;

  @NumberField({ min: 200, max: 650, description: 'Horizontal, the same two points.', example: 385 })
  reachMm: number;

  @NumberField({ min: 55, max: 85, description: 'To the horizontal.', example: 73 })
  headTubeAngleDeg: number;
}

export class PointRequest {
  @NumberField({ min: -500, max: 1100, description: 'In front of the bottom bracket.', example: 420 })
  xMm: number;

  @NumberField({ min: 100, max: 1200, description: 'Above the bottom bracket.', example: 640 })
  yMm: number;
}

export class ContactPointsRequest {
  @NestedField(() => PointRequest, {
    description: 'Top of the saddle where it is 80 mm wide.',
    example: { xMm: -190, yMm: 710 },
  })
  saddle: PointRequest;

  @NestedField(() => PointRequest, {
    description: 'Hoods of a drop bar, grips of a flat one.',
    example: { xMm: 520, yMm: 640 },
  })
  upperGrip: PointRequest;

  @NumberField({
    min: 100,
    max: 1100,
    nullable: true,
    description: 'Height of the drops; null without.',
    example: 520,
  })
  lowerGripYMm: number | null;
}

export class CreateBikeRequest {
  @TextField({ max: 100, example: 'Road bike' })
  name: string;

  @EnumField(bikeKinds, { optional: true, description: '`other` when absent.', example: 'road' })
  kind?: BikeKind;

  @NumberField({ min: 80, max: 250, example: 172.5 })
  crankLengthMm: number;

  @NumberField({
    min: 50,
    max: 90,
    description: 'Direction the saddle moves in, to the horizontal.',
    example: 73,
  })
  seatTubeAngleDeg: number;

  @NestedField(() => FrameRequest, {
    optional: true,
    nullable: true,
    description: 'Null or left out: not known; measure the contact points then.',
  })
  frame?: FrameRequest | null;

  @NestedField(() => ContactPointsRequest, {
    optional: true,
    nullable: true,
    description: 'Where the rider meets the bike, as measured.',
  })
  contactPoints?: ContactPointsRequest | null;

  @EnumListField(bikeUses, { min: 0, optional: true, example: ['racing'] })
  uses?: BikeUse[];
}

export class UpdateBikeRequest extends PartialType(CreateBikeRequest, { skipNullProperties: false }) {
  @BooleanField({ optional: true, description: 'Put away, or taken up again.', example: false })
  archived?: boolean;
}

class StemFacts {
  @NumberField({ min: 0, max: 180, description: "Steerer's axis to the bar's axis.", example: 100 })
  lengthMm: number;

  @NumberField({
    min: -60,
    max: 60,
    description: 'To the normal of the steerer, rising positive.',
    example: -6,
  })
  angleDeg: number;

  @NumberField({ min: 0, max: 80, optional: true, description: 'Along the steerer.', example: 40 })
  clampHeightMm?: number;
}

class SpacersFacts {
  @NumberField({ min: 0, max: 100, description: 'Under the stem, together.', example: 20 })
  heightMm: number;
}

class SeatpostFacts {
  @NumberField({
    min: -80,
    max: 80,
    description: "Clamp behind the post's axis, square to it; negative in front.",
    example: 20,
  })
  setbackMm: number;
}

class SaddleFacts {
  @NumberField({ min: 150, max: 350, description: 'Tip to rear end.', example: 270 })
  lengthMm: number;

  @NumberField({ min: 80, max: 250, description: 'At its widest.', example: 143 })
  widthMm: number;

  @NumberField({ min: 50, max: 250, description: 'Tip back to where it is 80 mm wide.', example: 140 })
  tipTo80MmWidthMm: number;

  @NumberField({
    min: 20,
    max: 90,
    optional: true,
    description: 'Middle of the rail at the clamp up to the top where it is 80 mm wide.',
    example: 45,
  })
  railToTopMm?: number;
}

class BarsFacts {
  @NumberField({
    min: 150,
    max: 1000,
    description: 'Centre to centre of the hoods, or of the grips.',
    example: 400,
  })
  widthMm: number;

  @NumberField({
    min: -150,
    max: 450,
    description: "Clamp's axis forward to the upper grip.",
    example: 80,
  })
  reachMm: number;

  @NumberField({
    min: -100,
    max: 200,
    optional: true,
    description: 'Clamp up to the upper grip.',
    example: 0,
  })
  riseMm?: number;

  @NumberField({
    min: 0,
    max: 250,
    nullable: true,
    description: "Clamp's axis down to the drops; null without.",
    example: 125,
  })
  dropMm: number | null;
}

class CranksFacts {
  @NumberField({ min: 80, max: 250, example: 172.5 })
  lengthMm: number;
}

export const pedalKinds = [...holePatterns, 'platform'] as const;

class PedalsFacts {
  @EnumField(pedalKinds, { description: 'By the cleat it takes.', example: 'three_bolt' })
  kind: HolePattern | 'platform';

  @NumberField({
    min: 0,
    max: 50,
    description: 'Spindle to the sole of the shoe, cleat in between.',
    example: 15,
  })
  stackMm: number;

  @NumberField({
    min: 30,
    max: 120,
    optional: true,
    description: 'Crank arm to the middle of the pedal.',
    example: 53,
  })
  axleMm?: number;
}

const facts = (type: () => new () => object): PropertyDecorator =>
  NestedField(type, { optional: true, description: 'Needed for a part of this kind, and for no other.' });

/** The measures stand under the name of the part's kind. */
export class FittedPartRequest {
  @TextField({
    max: 200,
    optional: true,
    description: 'In words, by kind.',
    example: 'Short, with a channel.',
  })
  description?: string;

  @InstantField({ optional: true, description: 'Since when it is in use; now when absent.' })
  validFrom?: string;

  @facts(() => StemFacts) stem?: StemFacts;
  @facts(() => SpacersFacts) spacers?: SpacersFacts;
  @facts(() => SeatpostFacts) seatpost?: SeatpostFacts;
  @facts(() => SaddleFacts) saddle?: SaddleFacts;
  @facts(() => BarsFacts) bars?: BarsFacts;
  @facts(() => CranksFacts) cranks?: CranksFacts;
  @facts(() => PedalsFacts) pedals?: PedalsFacts;
}

export class FittedPartResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ enum: bikePartKinds })
  kind: BikePartKind;

  @ApiProperty({ type: String, nullable: true, example: 'Short, with a channel.' })
  description: string | null;

  @ApiProperty({
    type: 'object',
    additionalProperties: true,
    description: 'The measures of its kind.',
    example: { lengthMm: 100, angleDeg: -6 },
  })
  facts: object;

  @ApiProperty({ format: 'date-time' })
  validFrom: string;

  @ApiProperty({ type: String, format: 'date-time', nullable: true, description: 'Null: in use.' })
  validTo: string | null;

  @ApiProperty({ format: 'uuid' })
  fittedBy: string;

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  removedBy: string | null;
}

export class FittedPartPage {
  @ApiProperty({ type: [FittedPartResponse], description: 'Oldest first.' })
  items: FittedPartResponse[];

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  next: string | null;
}

export class FittedPartsQuery extends PageQuery {}

export class BikeResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ example: 'Road bike' })
  name: string;

  @ApiProperty({ enum: bikeKinds })
  kind: BikeKind;

  @ApiProperty({ example: 172.5 })
  crankLengthMm: number;

  @ApiProperty({ description: 'Direction the saddle moves in, to the horizontal.', example: 73 })
  seatTubeAngleDeg: number;

  @ApiProperty({ type: FrameRequest, nullable: true })
  frame: FrameRequest | null;

  @ApiProperty({ type: ContactPointsRequest, nullable: true })
  contactPoints: ContactPointsRequest | null;

  @ApiProperty({ type: [String], enum: bikeUses })
  uses: BikeUse[];

  @ApiProperty({ type: [FittedPartResponse], description: 'In use now.' })
  parts: FittedPartResponse[];

  @ApiProperty({ example: 1 })
  version: number;

  @ApiProperty({ type: String, format: 'date-time', nullable: true, description: 'When it was put away.' })
  archivedAt: string | null;
}

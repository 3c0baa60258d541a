import { ApiProperty } from '@nestjs/swagger';
import type { FilmSettings, Motion } from '@studio/fit-math';
import { EnumField, NestedField, NumberField, TextField } from '../../http/fields.js';

export const sides = ['left', 'right'] as const;
export type Side = (typeof sides)[number];

export class FilmRequest implements FilmSettings {
  @EnumField(sides, { description: 'The side of the rider the camera sees.' })
  sideSeen: Side;

  @EnumField(['down', 'up'], { description: 'Where the image’s y grows to: down in pixels.' })
  imageY: 'down' | 'up';

  @NumberField({ min: 0.01, max: 1000, description: 'At the plane of the leg.', example: 1.85 })
  mmPerUnit: number;

  @NumberField({
    min: -45,
    max: 45,
    description: 'What the line from heel to toe marker reads with the sole level; toe down positive.',
    example: 4,
  })
  markerLineWithSoleLevelDeg: number;
}

export class ImportMotionRequest {
  @EnumField(sides, { description: 'Which leg was recorded.' })
  side: Side;

  @TextField({
    max: 4_000_000,
    description:
      'CSV with a header: `time_s` or `time_ms`, then x and y of hip, knee, ankle, heel, toe and spindle (`hip_x` …), ' +
      'or `crank_deg`, `knee_flexion_deg`, `thigh_elevation_deg`, `ankle_angle_deg` and `foot_pitch_deg`. Commas, or ' +
      'semicolons where numbers have decimal commas.',
    example:
      'time_s,crank_deg,knee_flexion_deg,thigh_elevation_deg,ankle_angle_deg,foot_pitch_deg\n0,10,80,20,95,12',
  })
  csv: string;

  @NestedField(() => FilmRequest, { description: 'Not read where the angles themselves were recorded.' })
  film: FilmRequest;
}

export class MeanAndSdResponse {
  @ApiProperty({ example: 36.2 })
  value: number;

  @ApiProperty({ description: 'Standard deviation between the turns.', example: 0.8 })
  sd: number;
}

export class MotionAtResponse {
  @ApiProperty({ description: '0 is top dead centre.', example: 165 })
  crankDeg: number;

  @ApiProperty({ description: '0 is a straight leg.' })
  kneeFlexionDeg: MeanAndSdResponse;

  @ApiProperty({ description: 'Above the horizontal.' })
  thighElevationDeg: MeanAndSdResponse;

  @ApiProperty({ description: 'Between shank and sole.' })
  ankleAngleDeg: MeanAndSdResponse;

  @ApiProperty({ description: 'Toe down positive.' })
  footPitchDeg: MeanAndSdResponse;
}

export class StraightestOfMotionResponse {
  @ApiProperty({ example: 167 })
  crankDeg: number;

  @ApiProperty()
  kneeFlexionDeg: MeanAndSdResponse;

  @ApiProperty()
  footPitchDeg: MeanAndSdResponse;
}

export class RangesResponse {
  @ApiProperty({ example: 74 })
  kneeFlexionDeg: number;

  @ApiProperty({ example: 46 })
  thighElevationDeg: number;

  @ApiProperty({ example: 21 })
  ankleAngleDeg: number;

  @ApiProperty({ example: 24 })
  footPitchDeg: number;
}

export class MotionCautionResponse {
  @ApiProperty({ example: 'hip-landmark' })
  code: string;

  @ApiProperty({ example: 'Another hip landmark shifts the knee angle by 4 to 7°: keep to one.' })
  text: string;
}

export class MotionRecordingLine {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ format: 'uuid' })
  fitSessionId: string;

  @ApiProperty({ enum: sides })
  side: Side;

  @ApiProperty({ format: 'date-time' })
  importedAt: string;

  @ApiProperty({ format: 'uuid' })
  importedBy: string;

  @ApiProperty({
    example: '9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08',
    description: 'SHA-256 of the text that was handed in. The text itself is not kept.',
  })
  sha256: string;

  @ApiProperty({ example: '1.1.0' })
  formulaVersion: string;

  @ApiProperty({ description: 'Whole turns.', example: 12 })
  turns: number;

  @ApiProperty()
  cadenceRpm: MeanAndSdResponse;

  @ApiProperty({
    type: Number,
    nullable: true,
    example: 172.1,
    description: 'From the circle of the spindle: compare it with the crank. Null when angles were recorded.',
  })
  crankLengthFoundMm: number | null;

  @ApiProperty()
  straightest: StraightestOfMotionResponse;

  @ApiProperty({ description: 'Greatest less least of each mean angle.' })
  rangeDeg: RangesResponse;

  @ApiProperty({
    enum: ['heel-dropped', 'level', 'toe-pointed'],
    description: 'Where the knee is straightest.',
  })
  heelPosture: Motion['heelPosture'];

  @ApiProperty({ type: [MotionCautionResponse] })
  cautions: readonly MotionCautionResponse[];
}

export class MotionRecordingResponse extends MotionRecordingLine {
  @ApiProperty({ type: [MotionAtResponse], description: 'Every 5° from top dead centre.' })
  samples: readonly MotionAtResponse[];
}

export class MotionRecordingPage {
  @ApiProperty({ type: [MotionRecordingLine] })
  items: MotionRecordingLine[];

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  next: string | null;
}

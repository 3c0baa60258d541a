import { ApiProperty } from '@nestjs/swagger';
import {
  measuringMethods,
  mountedHardware,
  positionField,
  positionFieldIds,
  type MeasuringMethod,
  type PositionDifference,
  type PositionFieldId,
} from '@studio/fit-math';
import {
  EnumField,
  EnumListField,
  InstantField,
  IntField,
  MapField,
  NumberField,
  UuidField,
} from '../../http/fields.js';
import { PageQuery } from '../../http/paging.js';
import { basedOnField } from './writes/based-on.js';

/** As found, as the plans propose, as left. */
export const positionStages = ['found', 'proposed', 'left'] as const;
export type PositionStage = (typeof positionStages)[number];

/** A figure of `positionFields`: its range and what it runs between are said there. */
const figure =
  (example: number): PropertyDecorator =>
  (target, key) => {
    const { possible, definition } = positionField(key as PositionFieldId);
    const [min, max] = possible;
    const described = { description: `${definition} Null or left out: not measured.`, example };
    NumberField({ min, max, optional: true, nullable: true, ...described })(target, key);
  };

const hardware = (side: string): PropertyDecorator =>
  EnumListField(mountedHardware, {
    min: 0,
    optional: true,
    nullable: true,
    description: `Parts by kind under and beside the ${side} foot; empty: none; null or left out: not looked at.`,
    example: ['three_bolt_cleat'],
  });

export class PositionRequest {
  @figure(742) saddleHeightMm?: number | null;
  @figure(62) saddleSetbackMm?: number | null;
  @figure(205) saddleSetbackAt80Mm?: number | null;
  @figure(-1) saddleTiltDeg?: number | null;
  @figure(548) barReachMm?: number | null;
  @figure(70) barDropMm?: number | null;
  @figure(700) hoodReachMm?: number | null;
  @figure(60) hoodDropMm?: number | null;
  @figure(5) barTiltDeg?: number | null;
  @figure(400) barWidthMm?: number | null;
  @figure(172.5) crankLengthMm?: number | null;
  @figure(6) cleatBehindMth1LeftMm?: number | null;
  @figure(6) cleatBehindMth1RightMm?: number | null;
  @figure(92) cleatFromNoseLeftMm?: number | null;
  @figure(92) cleatFromNoseRightMm?: number | null;
  @figure(3) cleatRotationLeftDeg?: number | null;
  @figure(5) cleatRotationRightDeg?: number | null;
  @figure(0) cleatOutwardLeftMm?: number | null;
  @figure(0) cleatOutwardRightMm?: number | null;
  @figure(0) shimLeftMm?: number | null;
  @figure(3) shimRightMm?: number | null;
  @hardware('left') hardwareLeft?: string[] | null;
  @hardware('right') hardwareRight?: string[] | null;

  @EnumField(measuringMethods, {
    optional: true,
    description: 'By what all figures were measured that `methods` does not name.',
    example: 'tape',
  })
  method?: MeasuringMethod;

  @MapField({
    optional: true,
    description: `A figure's name to its method: ${measuringMethods.join(', ')}.`,
    example: { saddleTiltDeg: 'level' },
  })
  methods?: Partial<Record<PositionFieldId, MeasuringMethod>>;

  @InstantField({ optional: true, description: 'When it was measured; now when absent.' })
  takenAt?: string;

  @IntField(basedOnField)
  basedOn?: number;
}

type Figures = Record<PositionFieldId, number | null>;

export class PositionResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ enum: positionStages })
  stage: PositionStage;

  @ApiProperty({ description: 'From 1 in each stage; the newest stands.', example: 1 })
  version: number;

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  takenBy: string | null;

  @ApiProperty({ format: 'date-time' })
  takenAt: string;

  @told saddleHeightMm: number | null;
  @told saddleSetbackMm: number | null;
  @told saddleSetbackAt80Mm: number | null;
  @told saddleTiltDeg: number | null;
  @told barReachMm: number | null;
  @told barDropMm: number | null;
  @told hoodReachMm: number | null;
  @told hoodDropMm: number | null;
  @told barTiltDeg: number | null;
  @told barWidthMm: number | null;
  @told crankLengthMm: number | null;
  @told cleatBehindMth1LeftMm: number | null;
  @told cleatBehindMth1RightMm: number | null;
  @told cleatFromNoseLeftMm: number | null;
  @told cleatFromNoseRightMm: number | null;
  @told cleatRotationLeftDeg: number | null;
  @told cleatRotationRightDeg: number | null;
  @told cleatOutwardLeftMm: number | null;
  @told cleatOutwardRightMm: number | null;
  @told shimLeftMm: number | null;
  @told shimRightMm: number | null;

  @ApiProperty({ type: [String], nullable: true, example: ['three_bolt_cleat'] })
  hardwareLeft: string[] | null;

  @ApiProperty({ type: [String], nullable: true, example: ['three_bolt_cleat', 'cleat_shim'] })
  hardwareRight: string[] | null;

  @ApiProperty({
    type: 'object',
    additionalProperties: { type: 'string', enum: [...measuringMethods] },
    description: "A figure's name to how it was measured; a measured figure that is absent: not told.",
    example: { saddleHeightMm: 'tape' },
  })
  methods: Partial<Record<PositionFieldId, MeasuringMethod>>;

  @ApiProperty({
    type: [String],
    description: 'Figures that are not measured.',
    example: ['barTiltDeg'],
  })
  notMeasured: PositionFieldId[];
}

function told(target: object, key: string | symbol): void {
  const { definition } = positionField(key as PositionFieldId);
  ApiProperty({ type: Number, nullable: true, description: definition })(target, key);
}

export type PositionRow = Omit<PositionResponse, 'notMeasured'>;

export const withWhatIsMissing = <Row extends Figures>(
  row: Row,
): Row & { notMeasured: PositionFieldId[] } => ({
  ...row,
  notMeasured: positionFieldIds.filter((id) => row[id] === null),
});

export class PositionOfClientResponse extends PositionResponse {
  @ApiProperty({ format: 'uuid' })
  fitSessionId: string;

  @ApiProperty({ format: 'uuid' })
  bikeId: string;

  @ApiProperty({ description: 'False: a newer version of its stage took its place.', example: true })
  stands: boolean;
}

export class PositionPage {
  @ApiProperty({ type: [PositionOfClientResponse] })
  items: PositionOfClientResponse[];

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  next: string | null;
}

export class ListPositionsQuery extends PageQuery {
  @UuidField({ optional: true, description: 'Of this bike only.' })
  bikeId?: string;

  @EnumField(positionStages, { optional: true, description: 'Of this stage only.' })
  stage?: PositionStage;
}

export class CompareQuery {
  @UuidField({ description: 'A position of the client.' })
  from: string;

  @UuidField({ description: 'Another, of the same or another visit or bike.' })
  to: string;
}

export class DifferenceResponse implements PositionDifference {
  @ApiProperty({ enum: [...positionFieldIds] })
  field: PositionFieldId;

  @ApiProperty({ example: 'Bottom bracket to saddle top, along the seat tube.' })
  definition: string;

  @ApiProperty({ enum: ['mm', 'deg'] })
  unit: 'mm' | 'deg';

  @ApiProperty({ type: Number, nullable: true, description: 'Null: not measured.', example: 740 })
  from: number | null;

  @ApiProperty({ type: Number, nullable: true, description: 'Null: not measured.', example: 725 })
  to: number | null;

  @ApiProperty({ type: Number, nullable: true, description: 'Null unless both were measured.', example: -15 })
  change: number | null;

  @ApiProperty({
    type: Number,
    nullable: true,
    description: 'Standard deviation that measuring alone gives the change.',
    example: 1.4,
  })
  sd: number | null;

  @ApiProperty({
    type: Boolean,
    nullable: true,
    description: 'Measuring the same twice would give as much in 19 of 20; null unless both were measured.',
    example: false,
  })
  withinError: boolean | null;
}

export class HardwareDifferenceResponse {
  @ApiProperty({ enum: ['left', 'right'] })
  side: 'left' | 'right';

  @ApiProperty({ type: [String], nullable: true, example: ['three_bolt_cleat'] })
  from: string[] | null;

  @ApiProperty({ type: [String], nullable: true, example: ['three_bolt_cleat', 'rear_plate_24'] })
  to: string[] | null;

  @ApiProperty({ type: [String], example: ['rear_plate_24'] })
  added: string[];

  @ApiProperty({ type: [String], example: ['cleat_shim'] })
  removed: string[];
}

export class ComparisonOfPositionsResponse {
  @ApiProperty({ type: PositionOfClientResponse })
  from: PositionOfClientResponse;

  @ApiProperty({ type: PositionOfClientResponse })
  to: PositionOfClientResponse;

  @ApiProperty({
    type: [DifferenceResponse],
    description: 'Every figure measured in one of the two at least.',
  })
  differences: DifferenceResponse[];

  @ApiProperty({ type: [HardwareDifferenceResponse], description: 'Sides looked at in both.' })
  hardware: HardwareDifferenceResponse[];
}

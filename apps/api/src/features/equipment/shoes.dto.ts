import { ApiProperty, PartialType } from '@nestjs/swagger';
import { soleCurves, soleMaterials, type SoleCurve, type SoleMaterial } from '@studio/database';
import {
  holePatterns,
  mountedHardware,
  sizesOfFoot,
  sizeSystems,
  type HolePattern,
  type SizeInSystem,
  type SizeSystem,
} from '@studio/fit-math';
import {
  BooleanField,
  EnumField,
  InstantField,
  NestedField,
  NumberField,
  TextField,
} from '../../http/fields.js';
import { PageQuery } from '../../http/paging.js';

export class MarkedSizeRequest {
  @EnumField(sizeSystems, { example: 'eu' })
  system: SizeSystem;

  @NumberField({ min: 0, max: 340, description: 'As marked on the shoe.', example: 43 })
  size: number;
}

export class CreateShoeRequest {
  @TextField({ max: 100, example: 'Summer shoes' })
  name: string;

  @NumberField({ min: 150, max: 400, description: 'Heel end to nose, outside.', example: 290 })
  outerLengthMm: number;

  @EnumField(holePatterns)
  holePattern: HolePattern;

  @NumberField({
    min: 50,
    max: 400,
    description: 'Cleat centre at the front end of the slots, from the heel end of the shoe.',
    example: 212,
  })
  slotFrontFromHeelMm: number;

  @NumberField({
    min: 50,
    max: 400,
    description: 'Cleat centre at the rear end of the slots, from the heel end of the shoe.',
    example: 197,
  })
  slotRearFromHeelMm: number;

  @BooleanField({ description: 'The sole is cut through by a channel under the arch.', example: false })
  archChannel: boolean;

  @NestedField(() => MarkedSizeRequest, {
    optional: true,
    nullable: true,
    description: 'The size as marked.',
  })
  markedSize?: MarkedSizeRequest | null;

  @NumberField({
    min: 180,
    max: 340,
    optional: true,
    nullable: true,
    description: 'Of the foot it is made for (ISO 9407). Left out: from the marked size.',
    example: 273,
  })
  footLengthMm?: number | null;

  @NumberField({
    min: 50,
    max: 400,
    optional: true,
    nullable: true,
    description: "Middle of the bolts' line, from the heel end of the shoe.",
    example: 205,
  })
  boltLineFromHeelMm?: number | null;

  @EnumField(soleCurves, {
    optional: true,
    nullable: true,
    description: 'Lengthwise, where a plate would lie.',
    example: 'slight',
  })
  soleCurve?: SoleCurve | null;

  @EnumField(soleMaterials, { optional: true, nullable: true, example: 'carbon' })
  soleMaterial?: SoleMaterial | null;
}

export class UpdateShoeRequest extends PartialType(CreateShoeRequest, { skipNullProperties: false }) {
  @BooleanField({ optional: true, description: 'Put away, or taken up again.', example: false })
  archived?: boolean;
}

export class MountHardwareRequest {
  @EnumField(['left', 'right'] as const)
  side: 'left' | 'right';

  @EnumField(mountedHardware, { example: 'three_bolt_cleat' })
  kind: string;

  @TextField({ max: 200, optional: true, example: '3 mm under the whole cleat.' })
  note?: string;

  @InstantField({ optional: true, description: 'Since when it is there; now when absent.' })
  validFrom?: string;
}

export class HardwareResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ enum: ['left', 'right'] })
  side: 'left' | 'right';

  @ApiProperty({ enum: [...mountedHardware] })
  kind: string;

  @ApiProperty({ type: String, nullable: true, example: '3 mm under the whole cleat.' })
  note: string | null;

  @ApiProperty({ format: 'date-time' })
  validFrom: string;

  @ApiProperty({ type: String, format: 'date-time', nullable: true, description: 'Null: mounted.' })
  validTo: string | null;

  @ApiProperty({ format: 'uuid' })
  fittedBy: string;

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  removedBy: string | null;
}

export class HardwarePage {
  @ApiProperty({ type: [HardwareResponse], description: 'Oldest first.' })
  items: HardwareResponse[];

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  next: string | null;
}

export class HardwareQuery extends PageQuery {}

export class SizeResponse implements SizeInSystem {
  @ApiProperty({ enum: sizeSystems })
  system: SizeSystem;

  @ApiProperty({ description: 'As the scale runs.', example: 42.95 })
  exact: number;

  @ApiProperty({ description: 'The nearest that is marked on shoes.', example: 43 })
  marked: number;
}

export class ShoeResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ example: 'Summer shoes' })
  name: string;

  @ApiProperty({ example: 290 })
  outerLengthMm: number;

  @ApiProperty({ enum: [...holePatterns] })
  holePattern: HolePattern;

  @ApiProperty({ example: 212 })
  slotFrontFromHeelMm: number;

  @ApiProperty({ example: 197 })
  slotRearFromHeelMm: number;

  @ApiProperty({ example: false })
  archChannel: boolean;

  @ApiProperty({ type: MarkedSizeRequest, nullable: true })
  markedSize: MarkedSizeRequest | null;

  @ApiProperty({ type: Number, nullable: true, example: 273.3 })
  footLengthMm: number | null;

  @ApiProperty({
    type: [SizeResponse],
    description: 'What that foot takes in every system; makers differ by about a size. Empty: not known.',
  })
  sizes: SizeResponse[];

  @ApiProperty({ type: Number, nullable: true, example: 205 })
  boltLineFromHeelMm: number | null;

  @ApiProperty({ type: String, enum: [...soleCurves, null], nullable: true, example: 'slight' })
  soleCurve: SoleCurve | null;

  @ApiProperty({ type: String, enum: [...soleMaterials, null], nullable: true, example: 'carbon' })
  soleMaterial: SoleMaterial | null;

  @ApiProperty({ type: [HardwareResponse], description: 'Mounted now.' })
  hardware: HardwareResponse[];

  @ApiProperty({ example: 1 })
  version: number;

  @ApiProperty({ type: String, format: 'date-time', nullable: true, description: 'When it was put away.' })
  archivedAt: string | null;
}

export const withSizes = (row: Omit<ShoeResponse, 'sizes'>): ShoeResponse => ({
  ...row,
  sizes: row.footLengthMm === null ? [] : [...sizesOfFoot(row.footLengthMm)],
});

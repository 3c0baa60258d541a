import { ApiProperty } from '@nestjs/swagger';
import { holePatterns, type HolePattern } from '@studio/fit-math';
import { BooleanField, EnumField, NumberField, TextField } from '../../http/fields.js';

export class CreateBikeRequest {
  @TextField({ max: 100, example: 'Road bike' })
  name: string;

  @NumberField({ min: 80, max: 250, example: 172.5 })
  crankLengthMm: number;

  @NumberField({
    min: 50,
    max: 90,
    description: 'Direction the saddle moves in, to the horizontal.',
    example: 73,
  })
  seatTubeAngleDeg: number;
}

export class BikeResponse extends CreateBikeRequest {
  @ApiProperty({ format: 'uuid' })
  id: string;
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
}

export class ShoeResponse extends CreateShoeRequest {
  @ApiProperty({ format: 'uuid' })
  id: string;
}

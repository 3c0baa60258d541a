import { ApiProperty, PartialType } from '@nestjs/swagger';
import { Temporal } from 'temporal-polyfill';
import { ValidateBy } from 'class-validator';
import { TextField, UuidField, WordListField } from '../../http/fields.js';

const IsTimeZone = (): PropertyDecorator =>
  ValidateBy({
    name: 'isTimeZone',
    validator: {
      validate: (value: unknown) => {
        if (typeof value !== 'string' || !/^[A-Z]/.test(value)) return false;
        try {
          Temporal.Instant.fromEpochMilliseconds(0).toZonedDateTimeISO(value);
          return true;
        } catch {
          return false;
        }
      },
      defaultMessage: () => 'must be a time zone of the IANA list, like Europe/Copenhagen',
    },
  });

export class CreateSiteRequest {
  @TextField({ max: 100, example: 'North quay' })
  name: string;

  @IsTimeZone()
  @TextField({
    max: 64,
    optional: true,
    description: "IANA name (the studio's own when absent).",
    example: 'Europe/Copenhagen',
  })
  timeZone?: string;
}

export class SiteResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ example: 'North quay' })
  name: string;

  @ApiProperty({ example: 'Europe/Copenhagen' })
  timeZone: string;

  @ApiProperty({ type: 'integer', example: 1 })
  version: number;
}

export class CreateBenchRequest {
  @TextField({ max: 100, example: 'Bench by the window' })
  name: string;

  @UuidField({ optional: true, nullable: true, description: 'Not needed while the studio has one place.' })
  siteId?: string | null;
}

export class BenchResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ example: 'Bench by the window' })
  name: string;

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  siteId: string | null;

  @ApiProperty({ type: 'integer', example: 1 })
  version: number;
}

export class CreateRoomRequest {
  @TextField({ max: 100, example: 'Fit bay' })
  name: string;

  @UuidField({ optional: true, nullable: true, description: 'Not needed while the studio has one place.' })
  siteId?: string | null;

  @WordListField({ optional: true, max: 40, example: ['motion_capture', 'smart_trainer'] })
  equipment?: string[];
}

export class RoomResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ example: 'Fit bay' })
  name: string;

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  siteId: string | null;

  @ApiProperty({ type: [String], example: ['motion_capture'] })
  equipment: string[];

  @ApiProperty({ type: 'integer', example: 1 })
  version: number;
}

export class UpdateSiteRequest extends PartialType(CreateSiteRequest, { skipNullProperties: false }) {}
export class UpdateBenchRequest extends PartialType(CreateBenchRequest, { skipNullProperties: false }) {}
export class UpdateRoomRequest extends PartialType(CreateRoomRequest, { skipNullProperties: false }) {}

export class SitePage {
  @ApiProperty({ type: [SiteResponse] })
  items: SiteResponse[];

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  next: string | null;
}

export class BenchPage {
  @ApiProperty({ type: [BenchResponse] })
  items: BenchResponse[];

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  next: string | null;
}

export class RoomPage {
  @ApiProperty({ type: [RoomResponse] })
  items: RoomResponse[];

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  next: string | null;
}

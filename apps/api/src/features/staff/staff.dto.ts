import { ApiProperty, OmitType, PartialType } from '@nestjs/swagger';
import { roles, type Role, type User } from '@studio/database';
import { EmailField, EnumListField, TextField, WordListField } from '../../http/fields.js';

export class CreateStaffRequest {
  @EmailField({ example: 'tomas@harbour-lane.example' })
  email: string;

  @TextField({ max: 100, example: 'Tomas Lindqvist' })
  displayName: string;

  @TextField({
    min: 15,
    max: 200,
    description: 'At least 15 characters; no rule about which.',
    example: 'salt wind over the harbour',
  })
  password: string;

  @EnumListField(roles, { example: ['fitter'] })
  roles: Role[];

  @WordListField({
    optional: true,
    max: 40,
    description: 'What a service may ask of its fitter.',
    example: ['cleat_fitting'],
  })
  skills?: string[];
}

export class UpdateStaffRequest extends PartialType(
  OmitType(CreateStaffRequest, ['email', 'password'] as const),
  { skipNullProperties: false },
) {}

export class StaffResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ example: 'Tomas Lindqvist' })
  displayName: string;

  @ApiProperty({ example: 'tomas@harbour-lane.example' })
  email: string;

  @ApiProperty({ enum: roles, isArray: true })
  roles: readonly Role[];

  @ApiProperty({ type: [String], example: ['cleat_fitting'] })
  skills: readonly string[];

  @ApiProperty({ type: 'integer', example: 1 })
  version: number;

  static of({ id, displayName, email, roles, skills, version }: User): StaffResponse {
    return { id, displayName, email, roles, skills, version };
  }
}

export class StudioResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ example: 'Harbour Lane Fitting' })
  name: string;

  @ApiProperty({
    description: 'IANA name; local times are worked out from it.',
    example: 'Europe/Copenhagen',
  })
  timeZone: string;
}

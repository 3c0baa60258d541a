import { ApiProperty, OmitType, PartialType } from '@nestjs/swagger';
import { roles, type Role, type User } from '@studio/database';
import { BooleanField, EmailField, EnumListField, TextField, WordListField } from '../../http/fields.js';

export class CreateStaffRequest {
  @EmailField({ example: 'tomas@harbour-lane.example' })
  email: string;

  @TextField({ max: 100, example: 'Tomas Lindqvist' })
  displayName: string;

  @TextField({
    optional: true,
    max: 200,
    description:
      'At least 15 characters; no rule about which, but none that is guessed first. Left out, the person is mailed a ' +
      'link to choose one by.',
    example: 'salt wind over the harbour',
  })
  password?: string;

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
) {
  @BooleanField({
    optional: true,
    description: 'False keeps the person from signing in and ends every sign-in and key.',
    example: true,
  })
  active?: boolean;
}

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

  @ApiProperty({ description: 'Whether the person may sign in.' })
  active: boolean;

  @ApiProperty({ description: 'Invited, and no password chosen yet.' })
  invited: boolean;

  @ApiProperty({ type: 'integer', example: 1 })
  version: number;

  static of(user: User): StaffResponse {
    const { id, displayName, email, roles, skills, version, disabledAt, passwordHash } = user;
    const state = { active: disabledAt === null, invited: passwordHash === null };
    return { id, displayName, email, roles, skills, ...state, version };
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

import { ApiProperty } from '@nestjs/swagger';
import { roles, type ApiKey, type Role } from '@studio/database';
import { BooleanField, EnumListField, InstantField, TextField } from '../../http/fields.js';

export class CreateApiKeyRequest {
  @TextField({ max: 100, description: 'What will use it.', example: 'measuring table in bay 2' })
  name: string;

  @EnumListField(roles, { description: 'Some of your own roles.', example: ['fitter'] })
  roles: Role[];

  @BooleanField({ optional: true, description: 'Only reads; no unless said.', example: false })
  readOnly?: boolean;

  @InstantField({ description: 'At most a year from now.', example: '2027-03-02T09:00:00Z' })
  expiresAt: string;
}

export class ApiKeyResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ format: 'uuid', description: 'Whom it acts as.' })
  userId: string;

  @ApiProperty({ example: 'measuring table in bay 2' })
  name: string;

  @ApiProperty({ enum: roles, isArray: true })
  roles: readonly Role[];

  @ApiProperty()
  readOnly: boolean;

  @ApiProperty({ format: 'date-time' })
  createdAt: Date;

  @ApiProperty({ format: 'date-time' })
  expiresAt: Date;

  @ApiProperty({ type: String, format: 'date-time', nullable: true, description: 'To within half a minute.' })
  lastUsedAt: Date | null;

  @ApiProperty({ type: String, format: 'date-time', nullable: true })
  revokedAt: Date | null;

  static of(key: ApiKey): ApiKeyResponse {
    const { id, userId, name, roles, readOnly, createdAt, expiresAt, lastUsedAt, revokedAt } = key;
    return { id, userId, name, roles, readOnly, createdAt, expiresAt, lastUsedAt, revokedAt };
  }
}

export class NewApiKeyResponse extends ApiKeyResponse {
  @ApiProperty({
    description: 'Send as `Authorization: Bearer …`. Shown this once.',
    example: 'fsk_0199d0c27c4e7e578f4f3f1f7a0c9b11.0199d0c310aa7b219d406d2c1b0a9f88.c2VjcmV0',
  })
  key: string;
}

import { ApiProperty } from '@nestjs/swagger';
import { TextField } from '../../http/fields.js';
import { codeField, SignedInUser } from './sign-ins.dto.js';

export class MyAccountResponse extends SignedInUser {
  @ApiProperty({ example: 'ines@harbour-lane.example' })
  email: string;

  @ApiProperty({ description: 'Whether a second factor is asked for.' })
  secondFactor: boolean;

  @ApiProperty({ type: 'integer', description: 'Recovery codes not used yet.', example: 9 })
  recoveryCodesLeft: number;
}

export class PasswordCheckRequest {
  @TextField({ max: 1000, description: 'Your password, once more.', example: 'salt wind over the harbour' })
  password: string;
}

export class ChangePasswordRequest extends PasswordCheckRequest {
  @TextField({
    max: 200,
    description: 'At least 15 characters; no rule about which, but none that is guessed first.',
    example: 'five herons behind the lock',
  })
  newPassword: string;
}

export class CodeRequest {
  @TextField(codeField)
  code: string;
}

export class RemoveSecondFactorRequest extends PasswordCheckRequest {
  @TextField(codeField)
  code: string;
}

export class StandingSignInResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ description: 'The one this request came with.' })
  current: boolean;

  @ApiProperty({ format: 'date-time' })
  beganAt: Date;

  @ApiProperty({ format: 'date-time' })
  lastUsedAt: Date;

  @ApiProperty({ type: String, nullable: true, example: '203.0.113.7' })
  fromAddress: string | null;

  @ApiProperty({ type: String, nullable: true, example: 'Mozilla/5.0 (X11; Linux x86_64)' })
  userAgent: string | null;
}

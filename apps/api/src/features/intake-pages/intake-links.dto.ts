import { ApiProperty } from '@nestjs/swagger';
import { intakeDeliveries, type IntakeDelivery, type IntakeLink } from '@studio/database';
import { EnumField, IntField } from '../../http/fields.js';

const states = ['open', 'handed_in', 'revoked', 'run_out'] as const;

export class CreateIntakeLinkRequest {
  @EnumField(intakeDeliveries, {
    description:
      '`mail`: sent to the client, needs the consent `contact`; `hand_over`: returned, to be passed on.',
  })
  delivery: IntakeDelivery;

  @IntField({ min: 1, max: 60, optional: true, description: 'Days it works (14 when absent).', example: 14 })
  validDays?: number;
}

export class IntakeLinkResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ format: 'uuid' })
  clientId: string;

  @ApiProperty({ example: 'rider-intake' })
  questionSetId: string;

  @ApiProperty({ example: '1' })
  questionSetVersion: string;

  @ApiProperty({ enum: intakeDeliveries })
  delivery: IntakeDelivery;

  @ApiProperty({ enum: states })
  state: (typeof states)[number];

  @ApiProperty({ format: 'date-time' })
  expiresAt: string;

  @ApiProperty({ type: String, format: 'date-time', nullable: true, description: 'When the mail went out.' })
  sentAt: string | null;

  @ApiProperty({
    type: String,
    format: 'date-time',
    nullable: true,
    description: 'When the client last saved a page.',
  })
  savedAt: string | null;

  @ApiProperty({ type: String, format: 'date-time', nullable: true })
  handedInAt: string | null;

  static of(row: IntakeLink, now: Date): IntakeLinkResponse {
    return {
      id: row.id,
      clientId: row.clientId,
      questionSetId: row.questionSetId,
      questionSetVersion: row.questionSetVersion,
      delivery: row.delivery,
      state: stateOf(row, now),
      expiresAt: row.expiresAt.toISOString(),
      sentAt: row.sentAt?.toISOString() ?? null,
      savedAt: row.savedAt?.toISOString() ?? null,
      handedInAt: row.submittedAt?.toISOString() ?? null,
    };
  }
}

export class CreatedIntakeLinkResponse extends IntakeLinkResponse {
  @ApiProperty({
    example: 'https://fitting.example/intake/0199…',
    type: String,
    nullable: true,
    description: 'The link, told this once and only when it is to be handed over: it is not kept.',
  })
  url: string | null;
}

export function stateOf(row: IntakeLink, now: Date): (typeof states)[number] {
  if (row.submittedAt !== null) return 'handed_in';
  if (row.revokedAt !== null) return 'revoked';
  return row.expiresAt <= now ? 'run_out' : 'open';
}

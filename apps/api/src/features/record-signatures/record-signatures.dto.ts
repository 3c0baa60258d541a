import { ApiProperty } from '@nestjs/swagger';
import type { SignatureKind } from '@studio/database';
import { ChainHead } from '../../http/chain-head.dto.js';

const hash = {
  description: 'SHA-256, hexadecimal.',
  example: '9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08',
};

export class RecordSignatureResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ type: 'integer', description: "Its place in the studio's chain.", example: 42 })
  number: number;

  @ApiProperty({ enum: ['session', 'amendment', 'erasure'] })
  kind: SignatureKind;

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  amendmentId: string | null;

  @ApiProperty({ format: 'uuid' })
  signedBy: string;

  @ApiProperty({ format: 'date-time' })
  signedAt: Date;

  @ApiProperty(hash)
  contentHash: string;

  @ApiProperty(hash)
  hash: string;
}

export class BrokenRecordResponse {
  @ApiProperty({ type: 'integer', nullable: true, description: 'Number of the signature.', example: 17 })
  number: number | null;

  @ApiProperty({
    type: String,
    format: 'uuid',
    nullable: true,
    description: 'Null for the signature of an erasure.',
  })
  fitSessionId: string | null;

  @ApiProperty({
    description: '`chain`, `signature`, or the table of the part that is not as it was signed.',
    example: 'measurements',
  })
  part: string;

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  recordId: string | null;

  @ApiProperty({ enum: ['altered', 'missing', 'added'] })
  what: 'altered' | 'missing' | 'added';

  @ApiProperty({ type: [String], example: ['mean'] })
  fields: readonly string[];
}

export class VerificationResponse {
  @ApiProperty({ description: 'Whether everything is as it was signed.' })
  intact: boolean;

  @ApiProperty({ type: 'integer', description: 'Signatures checked.', example: 42 })
  signatures: number;

  @ApiProperty({
    type: ChainHead,
    nullable: true,
    description: 'The newest. Written down elsewhere, it tells of a chain that was cut short at its end.',
  })
  head: ChainHead | null;

  @ApiProperty({
    type: 'integer',
    description: 'Sessions signed before signatures were chained: nothing can be said of them.',
    example: 0,
  })
  signedBeforeTheChain: number;

  @ApiProperty({
    type: 'integer',
    description: 'Signatures whose content was erased, as a later one says: their place in the chain holds.',
    example: 0,
  })
  erased: number;

  @ApiProperty({ type: [BrokenRecordResponse] })
  broken: readonly BrokenRecordResponse[];
}

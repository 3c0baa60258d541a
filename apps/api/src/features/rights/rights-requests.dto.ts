import { ApiProperty } from '@nestjs/swagger';
import {
  personCategories,
  rightsRequestKinds,
  rightsRequestStates,
  type PersonCategory,
  type RightsRequest,
  type RightsRequestKind,
  type RightsRequestState,
} from '@studio/database';
import { DayField, EnumField, TextField, UuidField } from '../../http/fields.js';
import { PageQuery } from '../../http/paging.js';
import { answerText, holds, type ErasedPart } from './answer-text.js';
import { following } from './states.js';

export class RecordRightsRequest {
  @EnumField(rightsRequestKinds, {
    description:
      'What the person asks for (GDPR): a copy, also to take elsewhere (15, 20); correction (16); that the record is only kept (18); erasure (17).',
  })
  kind: RightsRequestKind;

  @DayField({
    optional: true,
    description: 'The day it came, today when absent. The time to answer runs from it.',
  })
  receivedOn?: string;
}

export class ListRightsRequestsQuery extends PageQuery {
  @UuidField({ optional: true, description: 'Only of this client.' })
  clientId?: string;

  @EnumField(rightsRequestStates, { optional: true })
  state?: RightsRequestState;
}

export class IdentityCheckedRequest {
  @TextField({
    max: 300,
    description: 'How it was made sure who asks.',
    example: 'Known to the fitter; came in person.',
  })
  how: string;
}

export class ExtendRightsRequest {
  @TextField({
    max: 1000,
    description:
      'Why it takes up to two months more; the person has to be told within the first (article 12(3)).',
    example: 'Recordings of eleven visits have to be looked through.',
  })
  because: string;
}

export class RefuseRightsRequest {
  @TextField({
    max: 2000,
    description: 'The person is told, with how to complain (article 12(4)).',
    example: 'We could not make sure that it was you who asked.',
  })
  reason: string;
}

export class FulfilRightsRequest {
  @TextField({
    optional: true,
    max: 2000,
    description: 'What was done.',
    example: 'The birth date was put right.',
  })
  done?: string;
}

export class ErasedPartResponse implements ErasedPart {
  @ApiProperty({ enum: personCategories })
  category: PersonCategory;

  @ApiProperty({ example: 'quotes, receipts and payments made out to you' })
  holds: string;

  @ApiProperty({
    type: String,
    nullable: true,
    example: 'Bogføringsloven',
    description: 'The law that asks for it to be kept until then; null when none does.',
  })
  keptByLaw: string | null;

  @ApiProperty({ format: 'date', example: '2036-03-02', description: 'From that day it is erased.' })
  eraseOn: string;

  @ApiProperty()
  erased: boolean;
}

export class RightsRequestResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({
    type: String,
    format: 'uuid',
    nullable: true,
    description: 'Null once the person is erased.',
  })
  clientId: string | null;

  @ApiProperty({ enum: rightsRequestKinds })
  kind: RightsRequestKind;

  @ApiProperty({ enum: rightsRequestStates })
  state: RightsRequestState;

  @ApiProperty({ enum: rightsRequestStates, isArray: true, description: 'What may follow.' })
  allowed: readonly RightsRequestState[];

  @ApiProperty({ format: 'date', example: '2026-03-02' })
  receivedOn: string;

  @ApiProperty({ format: 'date', example: '2026-04-02', description: 'The last day to answer on.' })
  dueOn: string;

  @ApiProperty({
    type: String,
    nullable: true,
    example: 'Recordings of eleven visits have to be looked through.',
  })
  extendedBecause: string | null;

  @ApiProperty({ type: String, nullable: true, example: 'Known to the fitter; came in person.' })
  identityCheckedHow: string | null;

  @ApiProperty({ type: String, nullable: true, example: 'The birth date was put right.' })
  decision: string | null;

  @ApiProperty({ type: String, format: 'date-time', nullable: true })
  decidedAt: string | null;

  @ApiProperty({
    type: [ErasedPartResponse],
    description: 'Of an erasure: what is erased, and what is kept until when by which law.',
  })
  parts: ErasedPartResponse[];

  @ApiProperty({
    type: [String],
    example: ['We will answer by 2026-04-02.'],
    description: 'What the studio can tell the person, sentence by sentence.',
  })
  answer: string[];

  @ApiProperty({ type: 'integer', example: 1 })
  version: number;

  static of(request: RightsRequest, parts: readonly ErasedPart[]): RightsRequestResponse {
    const { id, clientId, kind, state, receivedOn, dueOn, extendedBecause, identityCheckedHow } = request;
    return {
      ...{ id, clientId, kind, state, receivedOn, dueOn, extendedBecause, identityCheckedHow },
      allowed: following[state],
      decision: request.decision,
      decidedAt: request.decidedAt?.toISOString() ?? null,
      parts: parts.map((part) => ({ ...part, holds: holds[part.category] })),
      answer: answerText(request, parts),
      version: request.version,
    };
  }
}

export class RightsRequestPage {
  @ApiProperty({ type: [RightsRequestResponse] })
  items: RightsRequestResponse[];

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  next: string | null;
}

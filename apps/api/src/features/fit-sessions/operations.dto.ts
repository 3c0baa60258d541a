import { ApiProperty } from '@nestjs/swagger';
import {
  EnumField,
  InstantField,
  IntField,
  MapField,
  NestedListField,
  OwnIdField,
  QueryIntField,
  UuidField,
} from '../../http/fields.js';
import { Problem } from '../../http/problem.js';
import { writeKinds, type WriteKind } from './writes/write-kinds.js';

export class OperationRequest {
  @OwnIdField({
    description: 'Made by the device; what is made anew by the operation has the same id.',
    example: '0199d0c2-7c4e-7e57-8f4f-3f1f7a0c9b11',
  })
  id: string;

  @IntField({
    min: 1,
    max: 1_000_000,
    description: "The device's own count for this session, from 1, without a gap.",
    example: 1,
  })
  sequence: number;

  @EnumField(writeKinds)
  kind: WriteKind;

  @MapField({
    description: 'The body of the route that does the same alone, with what that route has in its path.',
    example: { kind: 'inseam', method: 'tape', repeats: [82.4], unit: 'cm' },
  })
  payload: Record<string, unknown>;

  @InstantField({ description: 'When it was done, by the clock of the device.' })
  madeAt: string;
}

export class OperationsRequest {
  @UuidField({ description: 'The device, the same for as long as it counts.' })
  deviceId: string;

  @NestedListField(() => OperationRequest, {
    min: 1,
    max: 100,
    description: 'In any order; they are carried out in the order of the count.',
    example: [
      {
        id: '0199d0c2-7c4e-7e57-8f4f-3f1f7a0c9b11',
        sequence: 1,
        kind: 'add_measurement',
        payload: { kind: 'inseam', method: 'tape', repeats: [82.4], unit: 'cm' },
        madeAt: '2026-03-02T09:00:00Z',
      },
    ],
  })
  operations: OperationRequest[];
}

export const operationStates = ['waiting', 'applied', 'refused', 'conflict'] as const;
export type OperationState = (typeof operationStates)[number];

class Outcome {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({
    enum: operationStates,
    description:
      '`waiting`: kept, and carried out when those before it have come; `applied`; `refused`: see `problem`; ' +
      '`conflict`: somebody else changed the thing since the device saw it, and nothing was overwritten. Final but for ' +
      '`waiting`.',
  })
  state: OperationState;

  @ApiProperty({
    type: Number,
    nullable: true,
    description: 'Its place among all operations of the session; null while it waits.',
    example: 1,
  })
  number: number | null;

  @ApiProperty({
    type: 'object',
    additionalProperties: true,
    nullable: true,
    description: 'What the route answers that does the same alone, or the part of it that was written.',
    example: null,
  })
  answer: object | null;

  @ApiProperty({ type: Problem, nullable: true, description: 'Why it was not carried out.', example: null })
  problem: Problem | null;

  @ApiProperty({
    type: 'object',
    additionalProperties: true,
    nullable: true,
    description: 'In a conflict: what stands, beside what the operation says; null: nothing stands.',
    example: null,
  })
  standing: object | null;
}

export class OperationResult extends Outcome {
  @ApiProperty({ example: 1 })
  sequence: number;
}

export class OperationsResponse {
  @ApiProperty({
    type: [OperationResult],
    description: 'Of every operation sent, and of those that waited and could now be carried out.',
  })
  results: OperationResult[];

  @ApiProperty({ description: 'The device need not send again what it counted up to here.', example: 12 })
  settledUpTo: number;

  @ApiProperty({
    type: [Number],
    description: 'What the device counted and has not sent yet; others wait for it. The first hundred.',
    example: [13],
  })
  missing: number[];
}

export class OperationsQuery {
  @QueryIntField({
    optional: true,
    min: 0,
    max: 1_000_000_000,
    description: 'Continue after this number: `next` of the page before, or the last number the device has.',
    example: 0,
  })
  after?: number;

  @QueryIntField({
    optional: true,
    min: 1,
    max: 200,
    description: 'Rows a page (50 when absent).',
    example: 50,
  })
  limit?: number;
}

export class OperationResponse extends Outcome {
  @ApiProperty({ enum: writeKinds })
  kind: WriteKind;

  @ApiProperty({ type: 'object', additionalProperties: true, example: { pain: 2 } })
  payload: object;

  @ApiProperty({ type: String, format: 'uuid', nullable: true, description: 'Null: written online.' })
  deviceId: string | null;

  @ApiProperty({ type: Number, nullable: true, description: 'Null: written online.', example: 1 })
  sequence: number | null;

  @ApiProperty({ format: 'uuid' })
  sentBy: string;

  @ApiProperty({ format: 'date-time' })
  madeAt: string;
}

export class OperationPage {
  @ApiProperty({ type: [OperationResponse] })
  items: OperationResponse[];

  @ApiProperty({
    type: Number,
    nullable: true,
    description: 'Null: there is no more for now.',
    example: null,
  })
  next: number | null;
}

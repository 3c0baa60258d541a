import { ApiProperty } from '@nestjs/swagger';
import {
  fixings,
  shoes,
  shoeWorkStates,
  shoeWorkWays,
  type Fixing,
  type Shoe,
  type ShoeWorkState,
} from '@studio/shoe-work';
import {
  BooleanField,
  EnumField,
  InstantField,
  IntField,
  MapField,
  NestedListField,
  TextField,
  UuidField,
  UuidListField,
} from '../../http/fields.js';
import { ShoeWorkCautionResponse, StepToDoResponse } from './procedure.dto.js';

export const wayIds = shoeWorkWays.map(({ way }) => way.id);

export class OpenShoeWorkRequest {
  @EnumField(wayIds, { description: 'The way of bringing the cleat back.', example: 'slot_extension' })
  way: string;

  @EnumField(fixings, { description: '`drilled` means drilled or cut.', example: 'drilled' })
  fixing: Fixing;

  @BooleanField({ description: 'A sole is cracked; as looked at now, insole out.', example: false })
  cracked: boolean;

  @BooleanField({ description: 'The maker has called the shoes back; as looked up now.', example: false })
  recalled: boolean;

  @UuidField({ optional: true, description: 'Another pair of the client’s; that of the fit when absent.' })
  shoeId?: string;

  @UuidField({
    optional: true,
    description: 'The visit it is done in: what it booked on a bench is the case’s own.',
  })
  appointmentId?: string;
}

export class ShoeWorkConsentRequest {
  @TextField({ max: 200, description: 'As signed; of a minor the guardian’s.', example: 'Robin Rider' })
  signedName: string;

  @TextField({ max: 20, description: 'The version of the text that was signed.', example: '1' })
  textVersion: string;

  @EnumField(['en', 'de'] as const, { description: 'The language it was read in.', example: 'en' })
  language: 'en' | 'de';
}

export class ShoeWorkStepRequest {
  @MapField({
    description: 'By the names the step asks for.',
    example: { soleAndInsideShown: true },
  })
  values: Record<string, unknown>;

  @UuidListField({ optional: true, max: 20, description: 'Photographs kept for these shoes.' })
  photoIds?: string[];
}

export class CureShoeWorkRequest {
  @UuidField({ nullable: true, description: 'The bench it lies on; null: elsewhere.' })
  benchId: string | null;

  @InstantField({
    description: 'When it has cured in full; within 30 days.',
    example: '2090-03-03T09:00:00Z',
  })
  until: string;

  @TextField({
    max: 200,
    description: 'Where the time was taken from.',
    example: 'Maker’s sheet, 24 h at 20 °C.',
  })
  source: string;
}

export class ShoeWorkPartRequest {
  @UuidField({ description: 'A part of the price list.' })
  partId: string;

  @IntField({ min: 1, max: 100, example: 2 })
  quantity: number;
}

export class ShoeWorkPartsRequest {
  @NestedListField(() => ShoeWorkPartRequest, { max: 50, description: 'All that was used; each part once.' })
  parts: ShoeWorkPartRequest[];
}

export class AbandonShoeWorkRequest {
  @TextField({ max: 1000, example: 'The sole is thinner than it looked.' })
  reason: string;
}

export class ShoeWorkPartResponse {
  @ApiProperty({ format: 'uuid' })
  partId: string;

  @ApiProperty({ example: 'Backing plate, pair' })
  name: string;

  @ApiProperty({ type: 'integer', example: 2 })
  quantity: number;
}

export class JudgedShoeResponse {
  @ApiProperty({ example: 290 })
  outerLengthMm: number;

  @ApiProperty({ example: 'three_bolt' })
  holePattern: string;

  @ApiProperty({ example: 197 })
  slotRearFromHeelMm: number;

  @ApiProperty({ example: false })
  archChannel: boolean;

  @ApiProperty({ type: String, nullable: true, example: 'slight' })
  soleCurve: string | null;

  @ApiProperty({ type: String, example: 'carbon' })
  soleMaterial: string;

  @ApiProperty({ example: false })
  cracked: boolean;

  @ApiProperty({ example: false })
  recalled: boolean;
}

export class SignedConsentResponse {
  @ApiProperty({ example: 'Robin Rider' })
  signedName: string;

  @ApiProperty({ example: '1' })
  textVersion: string;

  @ApiProperty({ enum: ['en', 'de'] })
  language: 'en' | 'de';

  @ApiProperty({ description: 'What was signed.', example: 'My shoes will be cut, drilled or bonded.' })
  text: string;

  @ApiProperty({ type: String, format: 'uuid', nullable: true, description: 'Who signed for a minor.' })
  guardianId: string | null;

  @ApiProperty({ format: 'date-time' })
  signedAt: string;

  @ApiProperty({ format: 'uuid' })
  takenBy: string;
}

export class StepDoneResponse {
  @ApiProperty({ example: 'photographed' })
  step: string;

  @ApiProperty({ enum: [...shoes] })
  shoe: Shoe;

  @ApiProperty({ type: 'object', additionalProperties: true, example: { soleAndInsideShown: true } })
  values: Record<string, unknown>;

  @ApiProperty({ type: [String], format: 'uuid' })
  photoIds: string[];

  @ApiProperty({ format: 'uuid' })
  doneBy: string;

  @ApiProperty({ format: 'date-time' })
  doneAt: string;
}

export class CuringResponse {
  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  benchId: string | null;

  @ApiProperty({ format: 'date-time' })
  from: string;

  @ApiProperty({ format: 'date-time' })
  until: string;

  @ApiProperty({ example: 'Maker’s sheet, 24 h at 20 °C.' })
  source: string;
}

export class ShoeWorkChangeResponse {
  @ApiProperty({ enum: shoeWorkStates })
  state: ShoeWorkState;

  @ApiProperty({ type: String, nullable: true, example: 'The sole is thinner than it looked.' })
  reason: string | null;

  @ApiProperty({ format: 'uuid' })
  changedBy: string;

  @ApiProperty({ format: 'date-time' })
  changedAt: string;
}

export class ShoeWorkResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ format: 'uuid' })
  clientId: string;

  @ApiProperty({ format: 'uuid' })
  fitSessionId: string;

  @ApiProperty({ format: 'uuid' })
  shoeId: string;

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  appointmentId: string | null;

  @ApiProperty({ enum: wayIds })
  way: string;

  @ApiProperty({ enum: fixings })
  fixing: Fixing;

  @ApiProperty({
    enum: shoeWorkStates,
    description: '`curing` becomes `to_collect` by itself when its time has come.',
  })
  state: ShoeWorkState;

  @ApiProperty({ enum: shoeWorkStates, isArray: true, description: 'The states it may come to next.' })
  allowed: readonly ShoeWorkState[];

  @ApiProperty({ type: JudgedShoeResponse, description: 'What the shoes were when they were judged.' })
  shoe: JudgedShoeResponse;

  @ApiProperty({ type: SignedConsentResponse, nullable: true })
  consent: SignedConsentResponse | null;

  @ApiProperty({ example: '1' })
  procedureVersion: string;

  @ApiProperty({ type: [StepDoneResponse], description: 'In the order they were done.' })
  steps: StepDoneResponse[];

  @ApiProperty({ type: [StepToDoResponse], description: 'What may be done now, with what to beware of.' })
  next: StepToDoResponse[];

  @ApiProperty({ type: CuringResponse, nullable: true })
  curing: CuringResponse | null;

  @ApiProperty({
    type: String,
    format: 'date-time',
    nullable: true,
    description: 'From when nothing cures any more and the rider may come for the hand-over.',
  })
  toCollectAt: string | null;

  @ApiProperty({ type: [ShoeWorkPartResponse] })
  parts: ShoeWorkPartResponse[];

  @ApiProperty({
    type: [ShoeWorkCautionResponse],
    description: 'What the rider is told, once a sole was worked on.',
  })
  cautions: ShoeWorkCautionResponse[];

  @ApiProperty({ type: [ShoeWorkChangeResponse], description: 'Every state it came to, oldest first.' })
  changes: ShoeWorkChangeResponse[];

  @ApiProperty({ format: 'uuid' })
  openedBy: string;

  @ApiProperty({ format: 'date-time' })
  openedAt: string;

  @ApiProperty({ type: 'integer', example: 1 })
  version: number;
}

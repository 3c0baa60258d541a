import { ApiProperty } from '@nestjs/swagger';
import { activities, bodySites, routes, type Activity, type Route } from '@studio/clinical-flags';
import { positionFieldIds, type PositionFieldId } from '@studio/fit-math';
import {
  BooleanField,
  EnumField,
  InstantField,
  IntField,
  MapField,
  NestedListField,
  NumberField,
  TextField,
  UuidField,
} from '../../http/fields.js';
import { Marked } from '../../http/marked.js';
import { basedOnField } from './writes/based-on.js';

/** What can be changed beside a figure of the position, by kind. */
export const changedParts = [
  'saddle',
  'seatpost',
  'stem',
  'spacers',
  'bars',
  'cranks',
  'pedals',
  'cleats',
  'wedge',
  'insoles',
  'shoes',
  'other',
] as const;
export type ChangedPart = (typeof changedParts)[number];

const siteIds: readonly string[] = bodySites.map(({ id }) => id);

export class ChangeItem {
  @EnumField([...positionFieldIds, ...changedParts], {
    description: 'A figure of the position, or a part by kind.',
    example: 'saddleHeightMm',
  })
  what: PositionFieldId | ChangedPart;

  @NumberField({
    min: -1100,
    max: 1100,
    optional: true,
    nullable: true,
    description: 'Of a figure: as it was, in its unit; null or left out: not measured.',
    example: 742,
  })
  from?: number | null;

  @NumberField({
    min: -1100,
    max: 1100,
    optional: true,
    description: 'Of a figure, needed: as it is now.',
    example: 736,
  })
  to?: number;

  @TextField({
    optional: true,
    nullable: true,
    description: 'Of a part: what it was, by kind.',
    example: 'saddle 143 mm wide',
  })
  fromPart?: string | null;

  @TextField({
    optional: true,
    description: 'Of a part, needed: what it is now, by kind.',
    example: 'saddle 155 mm wide with a channel',
  })
  toPart?: string;
}

export class ChangeRequest {
  @NestedListField(() => ChangeItem, {
    min: 1,
    max: 12,
    description: 'One at a time is the rule; several at once are marked.',
    example: [{ what: 'saddleHeightMm', from: 742, to: 736 }],
  })
  items: ChangeItem[];

  @BooleanField({
    optional: true,
    description: 'That the items were changed at once, so the response cannot tell them apart.',
    example: false,
  })
  severalAtOnce?: boolean;

  @TextField({ max: 1000, example: 'The knee was straighter than 30° at the bottom.' })
  why: string;

  @InstantField({ optional: true, description: 'When it was made; now when absent.' })
  madeAt?: string;
}

export class PainAtSite {
  @EnumField(siteIds, { example: 'left_knee_front' })
  site: string;

  @IntField({ min: 0, max: 10, description: '0 none, 10 the worst imaginable.', example: 2 })
  pain: number;
}

export class RiderResponseRequest {
  @IntField({ min: 0, max: 100, optional: true, nullable: true, description: '0 worst.', example: 70 })
  comfort?: number | null;

  @NestedListField(() => PainAtSite, {
    max: 40,
    optional: true,
    description: 'Each body site once; left out: not asked; empty: asked, and none.',
    example: [{ site: 'left_knee_front', pain: 2 }],
  })
  pains?: PainAtSite[];

  @TextField({ max: 2000, optional: true, nullable: true, example: 'Feels lower, but easier on the knee.' })
  remarks?: string | null;

  @NumberField({ min: 0, max: 2500, optional: true, nullable: true, description: 'Watts.', example: 180 })
  powerW?: number | null;

  @NumberField({ min: 20, max: 250, optional: true, nullable: true, example: 132 })
  heartRateBpm?: number | null;

  @IntField(basedOnField)
  basedOn?: number;
}

export class RiderResponse {
  @ApiProperty({ example: 1 })
  version: number;

  @ApiProperty({ format: 'date-time' })
  at: string;

  @ApiProperty({ type: Number, nullable: true, example: 70 })
  comfort: number | null;

  @ApiProperty({ type: [PainAtSite], nullable: true, description: 'Null: not asked.' })
  pains: PainAtSite[] | null;

  @ApiProperty({ type: String, nullable: true, example: 'Feels lower, but easier on the knee.' })
  remarks: string | null;

  @ApiProperty({ type: Number, nullable: true, example: 180 })
  powerW: number | null;

  @ApiProperty({ type: Number, nullable: true, example: 132 })
  heartRateBpm: number | null;
}

export class ChangeResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ description: 'From 1, in the order the changes were recorded.', example: 1 })
  number: number;

  @ApiProperty({ type: [ChangeItem] })
  items: ChangeItem[];

  @ApiProperty({ example: false })
  severalAtOnce: boolean;

  @ApiProperty({ example: 'The knee was straighter than 30° at the bottom.' })
  why: string;

  @ApiProperty({ format: 'uuid' })
  madeBy: string;

  @ApiProperty({ format: 'date-time' })
  madeAt: string;

  @Marked('medical')
  @ApiProperty({ type: RiderResponse, nullable: true, description: 'Null: the rider was not asked yet.' })
  response: RiderResponse | null;
}

export class ComplaintRequest {
  @TextField({ max: 40, description: 'Version of the set `during-the-session`.', example: '1' })
  questionSetVersion: string;

  @MapField({
    description: 'Answers to that set by question, as for a screening.',
    example: { anything_new: 'yes', complaint_sites: ['left_knee_front'] },
  })
  answers: Record<string, unknown>;

  @TextField({ max: 2000, optional: true, example: 'Began after the second change.' })
  remarks?: string;

  @UuidField({ optional: true, description: 'The change right before it.' })
  changeId?: string;

  @InstantField({ optional: true, description: 'When it was said; now when absent.' })
  toldAt?: string;
}

export class ComplaintLine {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ format: 'uuid' })
  screeningId: string;

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  changeId: string | null;

  @ApiProperty({ type: [String], example: ['left_knee_front'] })
  sites: string[];

  @ApiProperty({ type: String, nullable: true, example: 'Began after the second change.' })
  remarks: string | null;

  @ApiProperty({ format: 'uuid' })
  toldBy: string;

  @ApiProperty({ format: 'date-time' })
  toldAt: string;
}

export class RaisedResponse {
  @ApiProperty({ example: 'new-one-sided-leg-swelling' })
  ruleId: string;

  @ApiProperty({ enum: routes })
  route: Route;

  @ApiProperty({ example: 'One leg is newly swollen.' })
  messageForStaff: string;

  @ApiProperty({ example: 'Please have this looked at today.' })
  messageForClient: string;

  @ApiProperty({ type: [String], enum: activities, description: 'What it bars until it is cleared.' })
  barred: readonly Activity[];
}

export class ComplaintResponse extends ComplaintLine {
  @Marked('medical')
  @ApiProperty({
    type: [RaisedResponse],
    description: 'What is raised and not cleared, the most pressing first.',
  })
  raised: RaisedResponse[];

  @ApiProperty({
    type: [String],
    description: 'Facts that must be asked before it can be told.',
    example: [],
  })
  openQuestions: readonly string[];

  @ApiProperty({ type: [String], enum: activities, description: 'What may not be done with the rider now.' })
  barred: readonly Activity[];

  @ApiProperty({ type: [String], description: 'Referral cases it opened or joined.', example: [] })
  referralIds: string[];

  @ApiProperty({
    example:
      'This sorts and routes; it does not diagnose. It does not replace the judgement of a licensed clinician.',
  })
  caution: string;
}

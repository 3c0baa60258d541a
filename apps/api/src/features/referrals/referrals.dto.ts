import { ApiProperty } from '@nestjs/swagger';
import { activities, routes, type Route } from '@studio/clinical-flags';
import { referralStates, screeningOccasions, type Referral, type ReferralState } from '@studio/database';
import { DayField, EnumField, InstantField, TextField } from '../../http/fields.js';
import { Marked } from '../../http/marked.js';
import { caseFacts } from './case-facts.js';
import type { Letter } from './letter.js';
import { letterText } from './letter-text.js';
import type { CaseClearance, CaseFinding } from './referrals.queries.js';
import { following, waiting } from './states.js';

const handOverWays = ['in_person', 'by_post', 'by_encrypted_message', 'read_out_by_phone'] as const;
const acknowledgementWays = ['in_person', 'by_phone', 'in_writing'] as const;

export class HandOverRequest {
  @EnumField(handOverWays, { description: 'How the letter reached the client.' })
  how: string;

  @InstantField({ optional: true, description: 'When; now when absent.' })
  at?: string;
}

export class AcknowledgeRequest {
  @EnumField(acknowledgementWays, { description: 'How the client said that they understood and will go.' })
  how: string;
}

export class RecordAnswerRequest {
  @TextField({ max: 200, example: 'Dr A. Holm' })
  clinician: string;

  @TextField({ max: 100, description: "The clinician's registration, as told.", example: 'reg. 00000' })
  registration: string;

  @DayField({ description: 'The day the clinician answered.', example: '2026-03-05' })
  answeredOn: string;

  @TextField({
    example: 'Seen and examined. May ride at an easy pace.',
    max: 4000,
    description: 'What the clinician answered, in their words.',
  })
  answer: string;
}

export class EndReferralRequest {
  @TextField({
    example: 'The client goes elsewhere.',
    max: 1000,
    description: 'Why it ends without a clearance; what is barred stays barred.',
  })
  reason: string;
}

export class CaseFindingResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ format: 'uuid' })
  screeningId: string;

  @ApiProperty({ enum: screeningOccasions })
  occasion: string;

  @ApiProperty({ example: 'calf-pain-on-walking' })
  ruleId: string;

  @ApiProperty({ enum: routes })
  route: Route;

  @ApiProperty({ example: 'No fit before the client has been seen.' })
  messageForStaff: string;
}

export class CaseFactResponse {
  @ApiProperty({ example: 'Do your calves hurt when you walk at an ordinary pace?' })
  question: string;

  @ApiProperty({ example: 'Yes' })
  answer: string;

  @ApiProperty({ format: 'date-time' })
  givenAt: string;
}

export class CaseClearanceResponse {
  @Marked('medical')
  @ApiProperty({ example: 'Seen by the GP, who sees nothing against riding.' })
  reason: string;

  @ApiProperty({ example: 'Dr A. Holm' })
  clearedByClinician: string;

  @ApiProperty({ example: 'reg. 00000', type: String, nullable: true })
  registration: string | null;

  @ApiProperty({ enum: activities, isArray: true })
  scope: string[];

  @ApiProperty({ type: String, format: 'date-time', nullable: true, description: 'Null: without an end.' })
  validUntil: string | null;

  @ApiProperty({ format: 'date-time' })
  recordedAt: string;
}

export class HandOverResponse {
  @ApiProperty({ format: 'date-time' })
  at: string;

  @ApiProperty({ example: 'in_person' })
  how: string;
}

export class AnswerResponse {
  @ApiProperty({ example: 'Dr A. Holm' })
  clinician: string;

  @ApiProperty({ example: 'reg. 00000' })
  registration: string;

  @ApiProperty({ format: 'date' })
  answeredOn: string;

  @ApiProperty({ example: 'Seen and examined. May ride at an easy pace.' })
  answer: string;
}

export class EndResponse {
  @ApiProperty({ format: 'date-time' })
  at: string;

  @ApiProperty({ example: 'The client goes elsewhere.' })
  reason: string;
}

export class ReferralSummaryResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ format: 'uuid' })
  clientId: string;

  @Marked('medical')
  @ApiProperty({ enum: routes, description: 'The most pressing of its findings.' })
  route: Route;

  @ApiProperty({ enum: referralStates })
  state: ReferralState;

  @ApiProperty({ enum: referralStates, isArray: true, description: 'The states that may follow.' })
  allowed: readonly ReferralState[];

  @ApiProperty({ format: 'date-time', description: 'By when the client should have been seen.' })
  dueAt: string;

  @ApiProperty({ description: 'The deadline has passed and no clinician has answered.' })
  overdue: boolean;

  @ApiProperty({ format: 'date-time' })
  openedAt: string;
}

export class ReferralResponse extends ReferralSummaryResponse {
  @Marked('medical')
  @ApiProperty({ type: [CaseFindingResponse] })
  findings: CaseFindingResponse[];

  @Marked('medical')
  @ApiProperty({ type: [CaseFactResponse], description: 'The answers it rests on, as the client gave them.' })
  facts: CaseFactResponse[];

  @ApiProperty({ type: HandOverResponse, nullable: true })
  handedOver: HandOverResponse | null;

  @ApiProperty({ type: HandOverResponse, nullable: true })
  acknowledged: HandOverResponse | null;

  @Marked('medical')
  @ApiProperty({ type: AnswerResponse, nullable: true })
  answer: AnswerResponse | null;

  @ApiProperty({ type: [CaseClearanceResponse] })
  clearances: CaseClearanceResponse[];

  @Marked('medical')
  @ApiProperty({ type: EndResponse, nullable: true })
  end: EndResponse | null;
}

export class LetterResponse {
  @ApiProperty({ example: 'en' })
  language: string;

  @ApiProperty({ example: 'Letter to the family doctor' })
  title: string;

  @Marked('medical')
  @ApiProperty({
    example: 'Dear colleague, your patient came to us for a bicycle fit and told us the following.',
    description: 'The whole letter as plain text.',
  })
  text: string;

  static of(letter: Letter): LetterResponse {
    return { language: letter.language, title: letter.title, text: letterText(letter) };
  }
}

export function toSummary(row: Referral, now: Date): ReferralSummaryResponse {
  return {
    id: row.id,
    clientId: row.clientId,
    route: row.route as Route,
    state: row.state,
    allowed: following[row.state],
    dueAt: row.dueAt.toISOString(),
    overdue: waiting.includes(row.state) && row.dueAt <= now,
    openedAt: row.createdAt.toISOString(),
  };
}

export function toReferral(
  row: Referral,
  of: { findings: readonly CaseFinding[]; clearances: readonly CaseClearance[]; now: Date },
): ReferralResponse {
  const { findings, clearances, now } = of;
  return {
    ...toSummary(row, now),
    findings: findings.map(({ id, screeningId, occasion, finding }) => ({
      id,
      screeningId,
      occasion,
      ruleId: finding.ruleId,
      route: finding.route,
      messageForStaff: finding.messageForStaff,
    })),
    facts: caseFacts(findings).flatMap(({ screenedAt, facts }) =>
      facts.map((fact) => ({ ...fact, givenAt: screenedAt.toISOString() })),
    ),
    handedOver: eventOf(row.handedOverAt, row.handedOverHow),
    acknowledged: eventOf(row.acknowledgedAt, row.acknowledgedHow),
    answer: answerOf(row),
    clearances: clearances.map(({ validUntil, recordedAt, ...rest }) => ({
      ...rest,
      validUntil: validUntil?.toISOString() ?? null,
      recordedAt: recordedAt.toISOString(),
    })),
    end:
      row.endedAt === null || row.endReason === null
        ? null
        : { at: row.endedAt.toISOString(), reason: row.endReason },
  };
}

const eventOf = (at: Date | null, how: string | null): HandOverResponse | null =>
  at === null || how === null ? null : { at: at.toISOString(), how };

function answerOf(row: Referral): AnswerResponse | null {
  const { answer, answeredOn, answeringClinician: clinician, answeringRegistration: registration } = row;
  if (answer === null || answeredOn === null || clinician === null || registration === null) return null;
  return { clinician, registration, answeredOn, answer };
}

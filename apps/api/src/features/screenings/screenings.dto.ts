import { ApiProperty } from '@nestjs/swagger';
import {
  activities,
  answers,
  deskNotices,
  routes,
  type Activity,
  type DeskNotice,
  type Evaluation,
  type PermissionLevel,
  type QuestionSet,
  type Route,
} from '@studio/clinical-flags';
import { screeningOccasions, type ScreeningOccasion } from '@studio/database';
import { MapField, TextField } from '../../http/fields.js';

export class QuestionResponse {
  @ApiProperty({ example: 'calf_pain_on_walking' })
  id: string;

  @ApiProperty({ example: 'Do your calves hurt when you walk at an ordinary pace?' })
  text: string;

  @ApiProperty({
    example: ['saddle_numb'],
    type: [String],
    description: 'Asked only when none of these was answered no.',
  })
  onlyAfter: readonly string[];

  @ApiProperty({ enum: answers, isArray: true, description: '`unknown`: the client does not know.' })
  answers: readonly string[];
}

export class QuestionSetResponse {
  @ApiProperty({ example: 'rider-intake' })
  id: string;

  @ApiProperty({ example: '1' })
  version: string;

  @ApiProperty({ example: 'Before your fit' })
  title: string;

  @ApiProperty({ type: [QuestionResponse] })
  questions: QuestionResponse[];

  static of({ id, version, title, questions }: QuestionSet): QuestionSetResponse {
    return {
      id,
      version,
      title,
      questions: questions.map((question) => ({
        id: question.id,
        text: question.text,
        onlyAfter: question.onlyAfter ?? [],
        answers,
      })),
    };
  }
}

export class CreateScreeningRequest {
  @TextField({ max: 60, example: 'rider-intake' })
  questionSetId: string;

  @TextField({ max: 20, example: '1' })
  questionSetVersion: string;

  @MapField({
    description: 'Answer by question id. A question left out stays open, and open is never reassuring.',
    example: { chest_pain: 'no', foot_numb_on_bike: 'yes', foot_numb_off_bike: 'no' },
  })
  answers: Record<string, unknown>;
}

export class PermissionResponse {
  @ApiProperty({ enum: ['none', 'limited', 'full'] })
  level: PermissionLevel;

  @ApiProperty({ enum: activities, isArray: true })
  barred: readonly Activity[];
}

export class FindingResponse {
  @ApiProperty({ example: 'foot-numb-on-the-bike' })
  ruleId: string;

  @ApiProperty({ enum: ['raised', 'clear', 'cannot_tell', 'not_applicable'] })
  result: string;

  @ApiProperty({ enum: routes })
  route: Route;

  @ApiProperty()
  permission: PermissionResponse;

  @ApiProperty({ example: 'No fit before the client has been seen.' })
  messageForStaff: string;

  @ApiProperty({ example: 'Please see your doctor in the next days, and do not ride before.' })
  messageForClient: string;

  @ApiProperty({ example: 'A clinician has looked and says riding is safe.' })
  wouldChange: string;

  @ApiProperty({ example: 'NICE CG95' })
  source: string;
}

export class ScreeningResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ format: 'uuid' })
  clientId: string;

  @ApiProperty({ enum: screeningOccasions })
  occasion: ScreeningOccasion;

  @ApiProperty({ example: '2026.1' })
  ruleSetVersion: string;

  @ApiProperty({ type: String, enum: routes, nullable: true, description: 'Null is no all-clear.' })
  worstRoute: Route | null;

  @ApiProperty()
  permission: PermissionResponse;

  @ApiProperty({ type: [FindingResponse] })
  findings: FindingResponse[];

  @ApiProperty({
    example: ['calf_pain_on_walking'],
    type: [String],
    description: 'Questions whose answers would settle what cannot be told.',
  })
  openQuestions: readonly string[];

  @ApiProperty({ example: false, description: 'Whether a clearance answers it.' })
  cleared: boolean;

  @ApiProperty({ example: 'This sorts answers and says whom to see. It is no diagnosis.' })
  caution: string;

  @ApiProperty({ format: 'date-time' })
  createdAt: string;
}

export interface ScreeningRecord {
  id: string;
  clientId: string;
  occasion: ScreeningOccasion;
  result: Evaluation;
  cleared: boolean;
  createdAt: Date;
}

export function toScreening({
  id,
  clientId,
  occasion,
  result,
  cleared,
  createdAt,
}: ScreeningRecord): ScreeningResponse {
  const { ruleSetVersion, worstRoute, permission, openFacts, caution } = result;
  return {
    id,
    clientId,
    occasion,
    ruleSetVersion,
    worstRoute,
    permission,
    findings: result.findings.map((finding) => ({
      ruleId: finding.ruleId,
      result: finding.result,
      route: finding.route,
      permission: finding.permission,
      messageForStaff: finding.messageForStaff,
      messageForClient: finding.messageForClient,
      wouldChange: finding.wouldChange,
      source: finding.source.citation,
    })),
    openQuestions: openFacts,
    cleared,
    caution,
    createdAt: createdAt.toISOString(),
  };
}

/** What a screening tells the front desk, and all it tells. */
export class DeskNoticeResponse {
  @ApiProperty({ format: 'uuid', required: false, description: 'The screening just kept.' })
  id?: string;

  @ApiProperty({ enum: [...deskNotices, 'not_screened'] })
  notice: DeskNotice | 'not_screened';
}

export class ClearRequest {
  @TextField({ max: 2000, example: 'Seen by the GP on 3 March; ultrasound without finding; may ride.' })
  reason: string;

  @TextField({
    max: 200,
    description: 'Name and registration of the clinician, as told.',
    example: 'Dr A. Holm, reg. 00000',
  })
  clearedByClinician: string;
}

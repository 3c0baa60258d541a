import { ApiProperty } from '@nestjs/swagger';
import {
  activities,
  deskNotices,
  factsOf,
  questionKinds,
  routes,
  takesDontKnow,
  type Activity,
  type DeskNotice,
  type Evaluation,
  type PermissionLevel,
  type Question,
  type QuestionKind,
  type QuestionSet,
  type Route,
} from '@studio/clinical-flags';
import { screeningOccasions, type ScreeningOccasion } from '@studio/database';
import { DayField, EnumField, EnumListField, MapField, TextField } from '../../http/fields.js';
import { Marked } from '../../http/marked.js';
import { answersOfScreening, optionsOf } from './given-answers.js';
import { stillBarred, type RaisedFinding } from './permission-in-force.js';

export class OptionResponse {
  @ApiProperty({ example: 'left_calf' })
  id: string;

  @ApiProperty({ example: 'Left calf' })
  label: string;
}

export class QuestionResponse {
  @ApiProperty({ example: 'calf_pain_on_walking' })
  id: string;

  @ApiProperty({
    enum: questionKinds,
    description:
      'How it is answered: `yes_no` yes or no; `number` a number from `min` to `max`; `one_of` an option; ' +
      '`several_of` and `body_sites` a list of options, empty for none; `date` a day; `text` a text.',
  })
  kind: QuestionKind;

  @ApiProperty({ example: 'Do your calves hurt when you walk at an ordinary pace?' })
  text: string;

  @ApiProperty({ type: String, nullable: true, example: 'Whatever the pace.' })
  help: string | null;

  @ApiProperty({
    example: ['saddle_numb'],
    type: [String],
    description: 'The questions whose answers decide whether it is asked.',
  })
  onlyAfter: readonly string[];

  @ApiProperty({ description: 'Asked for each body site named; answered under `id@site`.' })
  perSite: boolean;

  @ApiProperty({ description: 'Whether `unknown`, for "don\'t know", is an answer.' })
  takesDontKnow: boolean;

  @ApiProperty({ type: [OptionResponse], description: 'Empty unless it is answered by options.' })
  options: OptionResponse[];

  @ApiProperty({ type: Number, nullable: true })
  min: number | null;

  @ApiProperty({ type: Number, nullable: true })
  max: number | null;

  @ApiProperty({ type: String, nullable: true, example: 'years' })
  unit: string | null;

  @ApiProperty({ type: Number, nullable: true, description: 'Characters a text may have.' })
  maxLength: number | null;

  static of(question: Question): QuestionResponse {
    const { id, kind, text, help = null, onlyWhen, perSite = false } = question;
    const number = kind === 'number' ? question : null;
    return {
      id,
      kind,
      text,
      help,
      onlyAfter: onlyWhen ? factsOf(onlyWhen) : [],
      perSite,
      takesDontKnow: takesDontKnow(question),
      options: optionsOf(question).map((option) => ({ id: option.id, label: option.label })),
      min: number?.min ?? null,
      max: number?.max ?? null,
      unit: number?.unit ?? null,
      maxLength: kind === 'text' ? question.maxLength : null,
    };
  }
}

export class SectionResponse {
  @ApiProperty({ example: 'heart' })
  id: string;

  @ApiProperty({ example: 'Your heart' })
  title: string;

  @ApiProperty({ example: 'About the last weeks.', type: String, nullable: true })
  intro: string | null;

  @ApiProperty({
    example: ['anything_new'],
    type: [String],
    description: 'The questions whose answers decide whether it is asked.',
  })
  onlyAfter: readonly string[];

  @ApiProperty({ example: ['chest_pain'], type: [String], description: 'Ids of its questions, in order.' })
  questions: readonly string[];
}

export class QuestionSetResponse {
  @ApiProperty({ example: 'rider-intake' })
  id: string;

  @ApiProperty({ example: '1' })
  version: string;

  @ApiProperty({ example: 'Before your fit' })
  title: string;

  @ApiProperty({
    example: 'whole',
    enum: ['whole', 'what_is_new'],
    description:
      '`what_is_new`: asked after an earlier set; what it does not ask stands as it was answered then.',
  })
  scope: QuestionSet['scope'];

  @ApiProperty({ type: [QuestionResponse] })
  questions: QuestionResponse[];

  @ApiProperty({ type: [SectionResponse] })
  sections: SectionResponse[];

  static of({ id, version, title, scope, questions, sections }: QuestionSet): QuestionSetResponse {
    return {
      id,
      version,
      title,
      scope,
      questions: questions.map((question) => QuestionResponse.of(question)),
      sections: sections.map(({ intro = null, opensWhen, ...section }) => ({
        ...section,
        intro,
        onlyAfter: opensWhen ? factsOf(opensWhen) : [],
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
    description:
      'Answer by question id (`id@site` when it is asked for each body site). A question left out stays open, and ' +
      'open is never reassuring.',
    example: { chest_pain: 'no', foot_numb_on_bike: 'yes', foot_numb_off_bike: 'no' },
  })
  answers: Record<string, unknown>;

  @EnumField(screeningOccasions, {
    optional: true,
    description:
      'When it is asked; `intake` when absent. Whatever the occasion, what it raises stands until cleared.',
  })
  occasion?: ScreeningOccasion;
}

export class PermissionResponse {
  @ApiProperty({ enum: ['none', 'limited', 'full'] })
  level: PermissionLevel;

  @ApiProperty({ enum: activities, isArray: true })
  barred: readonly Activity[];
}

export class FindingResponse {
  @ApiProperty({
    type: String,
    format: 'uuid',
    nullable: true,
    description: 'Names a raised finding, as refusals and referral cases do; null for what was not raised.',
  })
  id: string | null;

  @ApiProperty({ example: 'foot-numb-on-the-bike' })
  ruleId: string;

  @ApiProperty({ enum: ['raised', 'clear', 'cannot_tell', 'not_applicable'] })
  result: string;

  @ApiProperty({ enum: routes })
  route: Route;

  @ApiProperty({ description: 'What the rule allows; `stillBars` is what is left of it after clearances.' })
  permission: PermissionResponse;

  @ApiProperty({ enum: activities, isArray: true })
  stillBars: readonly Activity[];

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

  @Marked('medical')
  @ApiProperty({ type: String, enum: routes, nullable: true, description: 'Null is no all-clear.' })
  worstRoute: Route | null;

  @Marked('medical')
  @ApiProperty()
  permission: PermissionResponse;

  @Marked('medical')
  @ApiProperty({ type: [FindingResponse] })
  findings: FindingResponse[];

  @Marked('medical')
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

export class ScreeningAnswerResponse {
  @ApiProperty({ example: 'calf_pain_on_walking' })
  questionId: string;

  @ApiProperty({ example: 'Do your calves hurt when you walk at an ordinary pace?' })
  question: string;

  @ApiProperty({
    oneOf: [{ type: 'string' }, { type: 'number' }, { type: 'array', items: { type: 'string' } }],
    description: 'As it was given: a word, a number or a list.',
    example: 'yes',
  })
  answer: unknown;

  @ApiProperty({ example: 'Yes' })
  inWords: string;
}

export class ScreeningDetailResponse extends ScreeningResponse {
  @Marked('medical')
  @ApiProperty({ type: [ScreeningAnswerResponse], description: 'As given, in the order asked.' })
  answers: ScreeningAnswerResponse[];
}

export interface ScreeningRecord {
  id: string;
  clientId: string;
  occasion: ScreeningOccasion;
  questionSetId: string;
  questionSetVersion: string;
  answers: Record<string, unknown>;
  result: Evaluation;
  raised: (Pick<RaisedFinding, 'id' | 'clearedScope'> & { ruleId: string })[];
  createdAt: Date;
}

/** Something was raised, and what clearances allow again leaves nothing of it barred. */
export const isCleared = ({ result, raised }: Pick<ScreeningRecord, 'result' | 'raised'>): boolean =>
  raised.length > 0 &&
  result.findings.every((finding) => {
    if (finding.result !== 'raised') return true;
    const row = raised.find(({ ruleId }) => ruleId === finding.ruleId);
    return row?.clearedScope != null && stillBarred(finding.permission, row.clearedScope).barred.length === 0;
  });

export function toScreening(record: ScreeningRecord): ScreeningResponse {
  const { id, clientId, occasion, result, raised, createdAt } = record;
  const { ruleSetVersion, worstRoute, permission, openFacts, caution } = result;
  return {
    id,
    clientId,
    occasion,
    ruleSetVersion,
    worstRoute,
    permission,
    findings: result.findings.map((finding) => {
      const row = raised.find(({ ruleId }) => ruleId === finding.ruleId);
      return {
        id: row?.id ?? null,
        ruleId: finding.ruleId,
        result: finding.result,
        route: finding.route,
        permission: finding.permission,
        stillBars: row ? stillBarred(finding.permission, row.clearedScope).barred : [],
        messageForStaff: finding.messageForStaff,
        messageForClient: finding.messageForClient,
        wouldChange: finding.wouldChange,
        source: finding.source.citation,
      };
    }),
    openQuestions: openFacts,
    cleared: isCleared(record),
    caution,
    createdAt: createdAt.toISOString(),
  };
}

export const toScreeningDetail = (record: ScreeningRecord): ScreeningDetailResponse => ({
  ...toScreening(record),
  answers: answersOfScreening(record).map(({ key, text, answer, inWords }) => ({
    questionId: key,
    question: text,
    answer,
    inWords,
  })),
});

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

  @TextField({ max: 200, description: 'Name of the clinician, as told.', example: 'Dr A. Holm' })
  clearedByClinician: string;

  @TextField({
    optional: true,
    max: 100,
    description: "The clinician's registration, as told.",
    example: 'reg. 00000',
  })
  registration?: string;

  @EnumListField(activities, {
    optional: true,
    description: 'The activities it allows again; everything when absent. What it leaves out stays barred.',
  })
  scope?: Activity[];

  @DayField({
    optional: true,
    description: 'The last day it holds, by the clock of the studio; without an end when absent.',
    example: '2090-06-30',
  })
  validUntil?: string;
}

import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import { clinicianScoreKinds, type ClinicianScoreKind } from '@studio/database';
import { NestedField } from '../../http/fields.js';
import { Marked } from '../../http/marked.js';
import {
  AnkleExamination,
  DvtExamination,
  ExerciseValuesTaken,
  KneeExamination,
  NeuropathyAnswers,
  RestingPressuresTaken,
  WalkingPainAsked,
} from './examinations.dto.js';

/** One of them. */
export class RecordClinicianScoreRequest {
  @NestedField(() => DvtExamination, {
    optional: true,
    description: 'The two-level score of 2003 for a clot in a deep vein of the leg.',
  })
  twoLevelDvt?: DvtExamination;

  @NestedField(() => RestingPressuresTaken, { optional: true })
  ankleBrachialIndex?: RestingPressuresTaken;

  @NestedField(() => ExerciseValuesTaken, { optional: true })
  exerciseIndex?: ExerciseValuesTaken;

  @NestedField(() => WalkingPainAsked, { optional: true })
  claudicationQuestions?: WalkingPainAsked;

  @NestedField(() => NeuropathyAnswers, { optional: true })
  neuropathyQuestionnaire?: NeuropathyAnswers;

  @NestedField(() => AnkleExamination, { optional: true, description: 'After an acute injury, adults.' })
  ankleInjury?: AnkleExamination;

  @NestedField(() => KneeExamination, { optional: true, description: 'After an acute injury, adults.' })
  kneeInjury?: KneeExamination;
}

export class ClinicianScoreResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ format: 'uuid' })
  clientId: string;

  @ApiProperty({
    format: 'uuid',
    description: 'Where what follows from it stands, beside the other findings.',
  })
  screeningId: string;

  @ApiProperty({ enum: clinicianScoreKinds })
  kind: ClinicianScoreKind;

  @ApiProperty({ example: 'Tomas Lindqvist' })
  clinicianName: string;

  @ApiProperty({ example: 'Register of physiotherapists, 00000' })
  registration: string;

  @Marked('clinician')
  @ApiPropertyOptional({
    type: 'object',
    additionalProperties: true,
    description: 'As it was handed in; for licensed clinicians only.',
    example: { restIndex: 1.02, afterIndex: 0.98 },
  })
  found?: object;

  @Marked('clinician')
  @ApiPropertyOptional({
    type: 'object',
    additionalProperties: true,
    description:
      'What it comes to, by the published rule; for licensed clinicians only. No result rules anything out.',
    example: { below066: false },
  })
  result?: object;

  @ApiProperty({ format: 'date-time' })
  createdAt: Date;
}

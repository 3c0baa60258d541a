import { ApiProperty } from '@nestjs/swagger';
import { activities, type Activity } from '@studio/clinical-flags';
import {
  consentTexts,
  fixings,
  shoes,
  type DoneStep,
  type Feasibility,
  type Fixing,
  type Hazard,
  type Procedure,
  type Shoe,
  type Step,
  type StepValue,
} from '@studio/shoe-work';
import { EnumField } from '../../http/fields.js';
import { Marked } from '../../http/marked.js';

const answers = ['yes', 'no'] as const;

export class ShoeWorkFeasibilityQuery {
  @EnumField(answers, {
    optional: true,
    description: 'A sole is cracked; absent: nobody looked.',
    example: 'no',
  })
  cracked?: (typeof answers)[number];

  @EnumField(answers, {
    optional: true,
    description: 'The maker has called the shoes back; absent: nobody looked it up.',
    example: 'no',
  })
  recalled?: (typeof answers)[number];
}

export class ShoeWorkCautionResponse {
  @ApiProperty({ example: 'arch-channel' })
  code: string;

  @ApiProperty({ example: 'A channel runs through the arch: nothing holds there.' })
  text: string;
}

export class MissingFactResponse {
  @ApiProperty({ example: 'soleCurve' })
  fact: string;

  @ApiProperty({ example: 'Lay a straight edge along the sole where the base would lie.' })
  text: string;
}

export class WayFeasibilityResponse {
  @ApiProperty({ example: 'slot_extension' })
  way: string;

  @ApiProperty({ enum: fixings, isArray: true, description: 'How it may be fixed.' })
  fixings: readonly Fixing[];

  @ApiProperty({ enum: ['feasible', 'not_feasible', 'cannot_tell'] })
  result: Feasibility['result'];

  @Marked('medical')
  @ApiProperty({ type: [ShoeWorkCautionResponse], description: 'Why not.' })
  reasons: readonly ShoeWorkCautionResponse[];

  @Marked('medical')
  @ApiProperty({ type: [MissingFactResponse], description: 'What is not known and would have to be.' })
  missing: readonly MissingFactResponse[];
}

export class ShoeWorkFeasibilityResponse {
  @ApiProperty({ type: [WayFeasibilityResponse] })
  ways: WayFeasibilityResponse[];

  @ApiProperty({ description: 'False: nothing is permitted before the client was screened.', example: true })
  screened: boolean;

  @ApiProperty({
    enum: activities,
    isArray: true,
    description:
      'What shoe work asks and the screening in force does not permit; all of it when not screened.',
    example: [],
  })
  barred: Activity[];
}

export class HazardResponse implements Hazard {
  @ApiProperty({ example: 'dust' })
  code: string;

  @ApiProperty({ example: 'Extract the dust at the tool and wear a mask for fine dust.' })
  text: string;

  @ApiProperty({ example: 'common practice, no source' })
  source: string;
}

export class StepValueResponse {
  @ApiProperty({ example: 'torqueNm' })
  name: string;

  @ApiProperty({ example: 'As set on the torque wrench.' })
  says: string;

  @ApiProperty({ enum: ['check', 'text', 'number'], description: 'A check must hold: true.' })
  kind: StepValue['kind'];

  @ApiProperty({ type: String, nullable: true, example: 'N·m' })
  unit: string | null;

  @ApiProperty({ type: Number, nullable: true, example: 0.5 })
  least: number | null;

  @ApiProperty({ type: Number, nullable: true, example: 20 })
  most: number | null;

  @ApiProperty({ type: String, nullable: true, example: 'common practice, no source' })
  source: string | null;
}

export class ProcedureStepResponse {
  @ApiProperty({ example: 'torqued' })
  step: string;

  @ApiProperty({ example: 'Tighten to torque.' })
  says: string;

  @ApiProperty({ enum: ['work', 'hand_over', 'riding'] })
  stage: Step['stage'];

  @ApiProperty({ enum: fixings, isArray: true, description: 'Done where the part is fixed so.' })
  fixings: readonly Fixing[];

  @ApiProperty({ description: 'The sole is not what it was afterwards.', example: false })
  irreversible: boolean;

  @ApiProperty({ description: 'Not done without a photograph.', example: false })
  photographed: boolean;

  @ApiProperty({ type: [StepValueResponse] })
  values: StepValueResponse[];

  @ApiProperty({ type: [HazardResponse], description: 'What to beware of, and to wear.' })
  hazards: readonly HazardResponse[];
}

export class StepToDoResponse extends ProcedureStepResponse {
  @ApiProperty({ enum: [...shoes] })
  shoe: Shoe;
}

export class ConsentTextResponse {
  @ApiProperty({ example: '1' })
  version: string;

  @ApiProperty({ example: 'My shoes will be cut, drilled or bonded. This cannot be undone.' })
  en: string;

  @ApiProperty({ example: 'Meine Schuhe werden geschnitten, gebohrt oder beklebt.' })
  de: string;
}

export class ShoeWorkProcedureResponse {
  @ApiProperty({ example: '1' })
  version: string;

  @ApiProperty({ type: [ProcedureStepResponse], description: 'Of each shoe, in order.' })
  steps: ProcedureStepResponse[];

  @ApiProperty({ type: ConsentTextResponse, description: 'What the client signs first.' })
  consent: ConsentTextResponse;
}

export const toProcedure = ({ version, steps }: Procedure): ShoeWorkProcedureResponse => {
  const { version: textVersion, texts } = consentTexts.at(-1) as (typeof consentTexts)[number];
  return { version, steps: steps.map(toStep), consent: { version: textVersion, ...texts } };
};

export const toStepsToDo = ({ steps }: Procedure, possible: readonly DoneStep[]): StepToDoResponse[] =>
  possible.flatMap(({ step: id, shoe }) => {
    const step = steps.find((item) => item.id === id);
    return step ? [{ ...toStep(step), shoe }] : [];
  });

function toStep({ id, says, stage, only = fixings, values, hazards, ...marks }: Step): ProcedureStepResponse {
  const { irreversible = false, photographed = false } = marks;
  return {
    step: id,
    says,
    stage,
    fixings: only,
    irreversible,
    photographed,
    values: values.map(toValue),
    hazards,
  };
}

const toValue = (value: StepValue): StepValueResponse => ({
  ...{ unit: null, least: null, most: null, source: null },
  ...value,
});

import type {
  AnkleAndFoot,
  DvtFindings,
  ExerciseValues,
  Knee,
  RestingPressures,
  WalkingPain,
  WalkingPainSite,
} from '@studio/clinical-flags';
import { BooleanField, EnumField, EnumListField, IntField, NumberField } from '../../http/fields.js';
import { BooleanListField } from './boolean-list-field.js';

/** What was found on history and examination of one leg. */
export class DvtExamination implements DvtFindings {
  @BooleanField({ description: 'Under treatment, treated within six months, or palliative.' })
  activeCancer: boolean;

  @BooleanField()
  paralysisOrRecentLegCast: boolean;

  @BooleanField()
  inBedForThreeDays: boolean;

  @IntField({
    nullable: true,
    min: 0,
    max: 5200,
    description: 'Since surgery under general or regional anaesthesia; null when there was none.',
  })
  weeksSinceMajorSurgery: number | null;

  @BooleanField()
  tenderAlongDeepVeins: boolean;

  @BooleanField()
  entireLegSwollen: boolean;

  @IntField({
    min: 0,
    max: 200,
    description: 'Than the other calf, ten centimetres below the tibial tuberosity; millimetres.',
    example: 12,
  })
  calfThickerMm: number;

  @BooleanField()
  pittingOedemaOfThatLegOnly: boolean;

  @BooleanField()
  collateralSuperficialVeins: boolean;

  @BooleanField()
  previousDvt: boolean;

  @BooleanField({ description: 'Something else explains it at least as well.' })
  otherExplanationAsLikely: boolean;
}

const armMmHg = { min: 1, max: 300, example: 122 };
const ankleMmHg = { min: 0, max: 300, example: 118 };

/** Systolic pressures of one leg and both arms, lying down, by Doppler. */
export class RestingPressuresTaken implements RestingPressures {
  @IntField(armMmHg)
  armRightMmHg: number;

  @IntField(armMmHg)
  armLeftMmHg: number;

  @IntField(ankleMmHg)
  dorsalisPedisMmHg: number;

  @IntField(ankleMmHg)
  posteriorTibialMmHg: number;

  @BooleanField({ description: 'The leg hurts, weakens or goes numb on effort.' })
  symptomsOnEffort: boolean;
}

const index = { min: 0, max: 3, example: 0.98 };

/** Ankle-brachial indices of one leg before and after effort, with at most two decimals. */
export class ExerciseValuesTaken implements ExerciseValues {
  @NumberField(index)
  restIndex: number;

  @NumberField({ ...index, description: 'One minute after maximal effort.' })
  afterIndex: number;

  @NumberField({ ...index, optional: true })
  otherLegAfterIndex?: number;

  @IntField({ ...ankleMmHg, optional: true })
  restAnkleMmHg?: number;

  @IntField({ ...ankleMmHg, optional: true })
  afterAnkleMmHg?: number;
}

const sites = ['calf', 'thigh', 'buttock', 'hamstring', 'shin', 'foot', 'joint'] as const;

/** What was asked about pain on walking. */
export class WalkingPainAsked implements WalkingPain {
  @BooleanField()
  onWalking: boolean;

  @BooleanField()
  startsStandingOrSitting: boolean;

  @BooleanField()
  uphillOrHurrying: boolean;

  @BooleanField()
  atOrdinaryPace: boolean;

  @EnumField(['gone_within_ten_minutes', 'lasts_longer'])
  onStandingStill: WalkingPain['onStandingStill'];

  @EnumListField(sites, { min: 0 })
  sites: WalkingPainSite[];
}

export class NeuropathyAnswers {
  @BooleanListField({
    length: 15,
    description: 'Yes or no to items 1 to 15, in their order.',
    example: Array.from({ length: 15 }, () => false),
  })
  yes: boolean[];

  @BooleanField()
  hasDiabetes: boolean;
}

/** Four steps, limping allowed. */
class StepsTried {
  @BooleanField({ description: 'Right after the injury.' })
  fourStepsAtOnce: boolean;

  @BooleanField()
  fourStepsNow: boolean;
}

export class AnkleExamination extends StepsTried implements AnkleAndFoot {
  @BooleanField()
  painAtMalleoli: boolean;

  @BooleanField()
  boneTenderLateralMalleolus: boolean;

  @BooleanField()
  boneTenderMedialMalleolus: boolean;

  @BooleanField()
  painMidfoot: boolean;

  @BooleanField()
  boneTenderFifthMetatarsalBase: boolean;

  @BooleanField()
  boneTenderNavicular: boolean;
}

export class KneeExamination extends StepsTried implements Knee {
  @IntField({ min: 18, max: 120, example: 44 })
  ageYears: number;

  @BooleanField()
  onlyPatellaTender: boolean;

  @BooleanField()
  fibularHeadTender: boolean;

  @BooleanField()
  bendsToRightAngle: boolean;
}

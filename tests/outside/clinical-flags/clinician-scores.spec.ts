import { describe, expect, it } from '@jest/globals';
import {
  ankleBrachialIndex,
  ankleInjuryCriteria,
  claudicationQuestions,
  ClinicianInputInvalid,
  exerciseIndex,
  kneeInjuryCriteria,
  neuropathyQuestionnaire,
  twoLevelDvtScore,
  withClinicianScores,
  type AbiBand,
  type AnkleAndFoot,
  type Answers,
  type DvtFindings,
  type Knee,
  type WalkingPain,
} from '@studio/clinical-flags';
import { fitOf, screened } from './intake.js';

const clinician = { name: 'Dr A. Holm', registration: '00000' };

// AHA/ACC 2016, ACC/AHA 2024: higher ankle over higher arm, two decimals half up, then the band. The values are ours,
// worked by hand through the published rule.
describe('resting ankle-brachial index', () => {
  it.each<[string, number, number, number, number, number, AbiBand]>([
    ['A1', 124, 120, 90, 104, 84, 'abnormal'],
    ['A2', 124, 120, 118, 126, 102, 'normal'],
    ['A3', 130, 128, 124, 118, 95, 'borderline'],
    ['A4, the edge 0.90', 130, 128, 117, 110, 90, 'abnormal'],
    ['A5, just above', 130, 128, 118, 110, 91, 'borderline'],
    ['A6, the edge 1.40', 140, 138, 196, 190, 140, 'normal'],
    ['A7, just above', 140, 138, 197, 190, 141, 'non_compressible'],
    ['A8, unequal arms', 120, 142, 140, 132, 99, 'borderline'],
    ['A9, 0.905 half up', 200, 196, 181, 100, 91, 'borderline'],
    ['A9, 0.995 half up', 200, 196, 199, 100, 100, 'normal'],
    ['A9, 1.405 half up', 200, 196, 281, 100, 141, 'non_compressible'],
    ['A10', 125, 120, 60, 55, 48, 'abnormal'],
    ['0.994, the top of borderline', 179, 170, 178, 100, 99, 'borderline'],
  ])('%s', (_case, armRightMmHg, armLeftMmHg, dorsalisPedisMmHg, posteriorTibialMmHg, hundredths, band) => {
    const pressures = { armRightMmHg, armLeftMmHg, dorsalisPedisMmHg, posteriorTibialMmHg };
    expect(ankleBrachialIndex(pressures, false, clinician)).toMatchObject({ hundredths, band });
  });

  const routesOf = (dorsalisPedisMmHg: number, symptomsOnEffort: boolean, armLeftMmHg = 100) => {
    const pressures = { armRightMmHg: 100, armLeftMmHg, dorsalisPedisMmHg, posteriorTibialMmHg: 50 };
    return ankleBrachialIndex(pressures, symptomsOnEffort, clinician).findings.map(({ route }) => route);
  };
  it.each([
    ['0.90', 90, false, ['gp_for_vascular_specialist']],
    ['0.95 with symptoms', 95, true, ['gp_within_days']],
    ['0.95 without', 95, false, []],
    ['1.20 with symptoms', 120, true, ['gp_within_days']],
    ['1.20 without', 120, false, []],
    ['1.41', 141, false, ['gp_within_days']],
  ])('%s is routed by its band and by symptoms on effort', (_case, ankle, symptoms, routes) => {
    expect(routesOf(ankle, symptoms)).toEqual(routes);
  });

  // That unequal arms go to a GP is from the reference's case of 22 mmHg; the limit of 15 is from memory.
  it.each([
    [115, []],
    [116, ['gp_within_days']],
    [85, []],
    [84, ['gp_within_days']],
  ])('arms of 100 and %i mmHg', (armLeft, routes) => {
    expect(routesOf(130, false, armLeft)).toEqual(routes);
  });

  it.each([
    ['armRightMmHg', { armRightMmHg: 0 }],
    ['armRightMmHg', { armRightMmHg: undefined }],
    ['armRightMmHg', { armRightMmHg: 301 }],
    ['armLeftMmHg', { armLeftMmHg: 0 }],
    ['armLeftMmHg', { armLeftMmHg: 301 }],
    ['dorsalisPedisMmHg', { dorsalisPedisMmHg: 301 }],
    ['posteriorTibialMmHg', { posteriorTibialMmHg: '110' }],
    ['posteriorTibialMmHg', { posteriorTibialMmHg: 110.5 }],
    ['posteriorTibialMmHg', { posteriorTibialMmHg: -1 }],
    ['posteriorTibialMmHg', { posteriorTibialMmHg: 301 }],
  ])('A11: refuses %s in %j and gives no band', (field, wrong) => {
    const right = { armRightMmHg: 124, armLeftMmHg: 120, dorsalisPedisMmHg: 90, posteriorTibialMmHg: 104 };
    const given = { ...right, ...wrong } as typeof right;
    expect(() => ankleBrachialIndex(given, false, clinician)).toThrow(
      expect.objectContaining({ constructor: ClinicianInputInvalid, field }),
    );
  });

  it('takes the largest pressures there are', () => {
    const most = { armRightMmHg: 300, armLeftMmHg: 300, dorsalisPedisMmHg: 300, posteriorTibialMmHg: 0 };
    expect(ankleBrachialIndex(most, false, clinician)).toMatchObject({ hundredths: 100, findings: [] });
    const other = { ...most, dorsalisPedisMmHg: 0, posteriorTibialMmHg: 300 };
    expect(ankleBrachialIndex(other, false, clinician)).toMatchObject({ hundredths: 100 });
  });
});

// AHA 2012; iliac values from the review to 2021 and a secondary source. The numbers are ours.
describe('exercise index', () => {
  it('a fall of exactly a fifth is not more than a fifth', () => {
    const result = exerciseIndex({ restIndex: 1.1, afterIndex: 0.88 }, clinician);
    expect(result).toMatchObject({ fallsByMoreThanTwentyPercent: false, findings: [] });
  });

  it('criteria that disagree go to a vascular specialist, never "negative"', () => {
    const values = { restIndex: 1.1, afterIndex: 0.8, restAnkleMmHg: 132, afterAnkleMmHg: 108 };
    const { findings, ...criteria } = exerciseIndex(values, clinician);
    expect(criteria).toEqual({
      fallsByMoreThanTwentyPercent: true,
      fallsByMoreThan30MmHg: false,
      below066: false,
      legsDifferByMoreThan018: null,
    });
    expect(findings.map(({ route }) => route)).toEqual(['gp_for_vascular_specialist']);
  });

  it.each([
    ['ankle falls by 30 mmHg', { restAnkleMmHg: 150, afterAnkleMmHg: 120 }, 'fallsByMoreThan30MmHg', false],
    ['ankle falls by 31 mmHg', { restAnkleMmHg: 151, afterAnkleMmHg: 120 }, 'fallsByMoreThan30MmHg', true],
    ['0.66 after', { restIndex: 0.7, afterIndex: 0.66 }, 'below066', false],
    ['0.65 after', { restIndex: 0.7, afterIndex: 0.65 }, 'below066', true],
    ['the legs differ by 0.18', { otherLegAfterIndex: 1.18 }, 'legsDifferByMoreThan018', false],
    ['the legs differ by 0.19', { otherLegAfterIndex: 0.81 }, 'legsDifferByMoreThan018', true],
    ['the legs differ by 0.22', { otherLegAfterIndex: 1.22 }, 'legsDifferByMoreThan018', true],
  ])('%s', (_case, values, criterion, met) => {
    const result = exerciseIndex({ restIndex: 1, afterIndex: 1, ...values }, clinician);
    expect(result[criterion as keyof typeof result]).toBe(met);
    expect(result.findings).toHaveLength(met ? 1 : 0);
  });

  it('published case: resting values of a young racer are normal, after effort below 0.50 (Circulation 1999;100:e38)', () => {
    expect(exerciseIndex({ restIndex: 1.1, afterIndex: 0.49 }, clinician)).toMatchObject({
      below066: true,
      findings: [{ route: 'gp_for_vascular_specialist' }],
    });
  });

  it.each([
    ['restIndex', { restIndex: 1.105 }],
    ['restIndex', { restIndex: -0.1 }],
    ['afterIndex', { afterIndex: 3.01 }],
    ['otherLegAfterIndex', { otherLegAfterIndex: NaN }],
    ['restAnkleMmHg', { restAnkleMmHg: 301, afterAnkleMmHg: 100 }],
    ['afterAnkleMmHg', { restAnkleMmHg: 120, afterAnkleMmHg: -1 }],
    ['afterAnkleMmHg', { restAnkleMmHg: 120, afterAnkleMmHg: 301 }],
  ])('refuses %s in %j', (field, wrong) => {
    expect(() => exerciseIndex({ restIndex: 1, afterIndex: 1, ...wrong }, clinician)).toThrow(
      expect.objectContaining({ field }),
    );
  });

  it.each([0, 3, 2.99, 0.07, 1.1, 0.29])('takes %d as an index', (value) => {
    expect(
      exerciseIndex({ restIndex: value, afterIndex: value }, clinician).fallsByMoreThanTwentyPercent,
    ).toBe(false);
  });
});

// Leng & Fowkes 1992, J Clin Epidemiol 45:1101–9. The cases are ours.
describe('questions on walking pain', () => {
  const usual: WalkingPain = {
    onWalking: true,
    startsStandingOrSitting: false,
    uphillOrHurrying: true,
    atOrdinaryPace: false,
    onStandingStill: 'gone_within_ten_minutes',
    sites: ['calf'],
  };
  it.each<[string, Partial<WalkingPain>, string, number | null]>([
    ['E1', {}, 'definite', 1],
    ['E2', { atOrdinaryPace: true, sites: ['calf', 'foot'] }, 'definite', 2],
    ['E3', { atOrdinaryPace: true, sites: ['buttock'] }, 'atypical', 2],
    ['thigh', { sites: ['thigh'] }, 'atypical', 1],
    ['E4', { startsStandingOrSitting: true }, 'negative', null],
    ['E5', { onStandingStill: 'lasts_longer' }, 'negative', null],
    ['E6', { sites: ['foot', 'shin'] }, 'negative', null],
    ['E7', { onWalking: false }, 'negative', null],
    ['E8', { uphillOrHurrying: false }, 'negative', null],
  ])('%s', (_case, pain, pattern, grade) => {
    const answer = claudicationQuestions({ ...usual, ...pain }, clinician);
    expect(answer).toMatchObject({ pattern, grade });
    expect(answer.findings.map(({ route }) => route)).toEqual(
      pattern === 'negative' ? [] : ['gp_for_vascular_specialist'],
    );
  });
});

// Wells et al. 2003, N Engl J Med 349:1227–35; NICE NG158. The cases are ours.
describe('two-level score', () => {
  const nothing: DvtFindings = {
    activeCancer: false,
    paralysisOrRecentLegCast: false,
    inBedForThreeDays: false,
    weeksSinceMajorSurgery: null,
    tenderAlongDeepVeins: false,
    entireLegSwollen: false,
    calfThickerMm: 0,
    pittingOedemaOfThatLegOnly: false,
    collateralSuperficialVeins: false,
    previousDvt: false,
    otherExplanationAsLikely: false,
  };
  const all: DvtFindings = {
    activeCancer: true,
    paralysisOrRecentLegCast: true,
    inBedForThreeDays: true,
    weeksSinceMajorSurgery: 1,
    tenderAlongDeepVeins: true,
    entireLegSwollen: true,
    calfThickerMm: 50,
    pittingOedemaOfThatLegOnly: true,
    collateralSuperficialVeins: true,
    previousDvt: true,
    otherExplanationAsLikely: false,
  };
  const swollenLeg = { leg_swelling_one_sided_new: 'yes' };
  it.each<[string, Partial<DvtFindings>, number, string, Answers, string, string]>([
    [
      'W1 surgery 6 weeks ago, calf 4 cm, pitting',
      { weeksSinceMajorSurgery: 6, calfThickerMm: 40, pittingOedemaOfThatLegOnly: true },
      3,
      'likely',
      {},
      'same_day_medical',
      'NO',
    ],
    [
      'W2 whole leg, calf exactly 3 cm',
      { entireLegSwollen: true, calfThickerMm: 30 },
      2,
      'likely',
      {},
      'same_day_medical',
      'NO',
    ],
    [
      'W3 previous DVT, calf 3.5 cm, another explanation: the swelling still goes the same day',
      { previousDvt: true, calfThickerMm: 35, otherExplanationAsLikely: true },
      0,
      'unlikely',
      swollenLeg,
      'same_day_medical',
      'NO',
    ],
    [
      'W4 tender, strain as likely, unexplained swelling',
      { tenderAlongDeepVeins: true, otherExplanationAsLikely: true },
      -1,
      'unlikely',
      swollenLeg,
      'same_day_medical',
      'NO',
    ],
    [
      'W4 tender, strain as likely, no swelling',
      { tenderAlongDeepVeins: true, otherExplanationAsLikely: true },
      -1,
      'unlikely',
      {},
      'gp_within_days',
      'LTD',
    ],
    [
      'W5 surgery 10 weeks ago only',
      { weeksSinceMajorSurgery: 10 },
      1,
      'unlikely',
      {},
      'gp_within_days',
      'LTD',
    ],
    ['W6 all nine', all, 9, 'likely', {}, 'same_day_medical', 'NO'],
    [
      'W7 as W3, breathless',
      { previousDvt: true, calfThickerMm: 35, otherExplanationAsLikely: true },
      0,
      'unlikely',
      { ...swollenLeg, breathless_at_rest: 'yes' },
      'emergency_now',
      'NO',
    ],
    ['the least', { otherExplanationAsLikely: true }, -2, 'unlikely', {}, 'gp_within_days', 'LTD'],
    ['surgery 12 weeks ago', { weeksSinceMajorSurgery: 12 }, 1, 'unlikely', {}, 'gp_within_days', 'LTD'],
    ['surgery 13 weeks ago', { weeksSinceMajorSurgery: 13 }, 0, 'unlikely', {}, 'gp_within_days', 'LTD'],
    [
      'in bed and operated count once',
      { inBedForThreeDays: true, weeksSinceMajorSurgery: 2 },
      1,
      'unlikely',
      {},
      'gp_within_days',
      'LTD',
    ],
    ['calf 2.9 cm', { calfThickerMm: 29 }, 0, 'unlikely', {}, 'gp_within_days', 'LTD'],
  ])('%s', (_case, found, score, level, reported, route, fit) => {
    const result = twoLevelDvtScore({ ...nothing, ...found }, clinician);
    expect(result).toMatchObject({ score, level });
    const evaluation = withClinicianScores(screened(reported), [result]);
    expect({ route: evaluation.worstRoute, fit: fitOf(evaluation) }).toEqual({ route, fit });
  });

  it.each<keyof DvtFindings>([
    'activeCancer',
    'paralysisOrRecentLegCast',
    'inBedForThreeDays',
    'tenderAlongDeepVeins',
    'entireLegSwollen',
    'pittingOedemaOfThatLegOnly',
    'collateralSuperficialVeins',
    'previousDvt',
  ])('%s is one point', (item) => {
    expect(twoLevelDvtScore({ ...nothing, [item]: true }, clinician).score).toBe(1);
  });

  it.each([
    ['weeksSinceMajorSurgery', { weeksSinceMajorSurgery: -1 }],
    ['weeksSinceMajorSurgery', { weeksSinceMajorSurgery: NaN }],
    ['calfThickerMm', { calfThickerMm: 201 }],
    ['calfThickerMm', { calfThickerMm: -1 }],
    ['calfThickerMm', { calfThickerMm: 30.5 }],
  ])('refuses %s in %j', (field, wrong) => {
    expect(() => twoLevelDvtScore({ ...nothing, ...wrong }, clinician)).toThrow(
      expect.objectContaining({ field }),
    );
  });

  it('takes the edges of its range', () => {
    expect(
      twoLevelDvtScore({ ...nothing, weeksSinceMajorSurgery: 0, calfThickerMm: 200 }, clinician).score,
    ).toBe(2);
  });
});

// Feldman et al. 1994, official key; Herman et al. 2012 (4 or more). The answers are ours.
describe('neuropathy questionnaire', () => {
  const answers = (...yes: number[]): boolean[] =>
    Array.from({ length: 15 }, (_, at) => yes.includes(at + 1));
  const abnormal = answers(1, 2, 3, 5, 6, 8, 9, 11, 12, 14, 15);
  it.each([
    ['yes to 1, 2, 5, 11, no to 7', answers(1, 2, 5, 11, 13), 5],
    ['yes to 4, 10, 7, 13', answers(4, 10, 7, 13), 0],
    ['every scored item abnormal', abnormal, 13],
  ])('%s', (_case, yes, score) => {
    expect(neuropathyQuestionnaire(yes, true, clinician).score).toBe(score);
  });

  it.each([1, 2, 3, 5, 6, 8, 9, 11, 12, 14, 15])('yes to item %i scores', (item) => {
    expect(neuropathyQuestionnaire(answers(item, 7, 13), true, clinician).score).toBe(1);
  });

  it.each([
    [3, true, 0],
    [4, true, 1],
    [6, false, 0],
    [7, false, 1],
  ])('%i points, diabetes %s', (points, hasDiabetes, raised) => {
    const yes = answers(...[1, 2, 3, 5, 6, 8, 9].slice(0, points), 7, 13);
    expect(neuropathyQuestionnaire(yes, hasDiabetes, clinician).findings).toHaveLength(raised);
  });

  it.each([14, 16])('refuses %i answers', (length) => {
    expect(() => neuropathyQuestionnaire(new Array<boolean>(length).fill(false), true, clinician)).toThrow(
      expect.objectContaining({ field: 'yes' }),
    );
  });
});

// Stiell et al. 1992–95. The cases are ours.
describe('injury criteria', () => {
  const ankle: AnkleAndFoot = {
    painAtMalleoli: false,
    boneTenderLateralMalleolus: false,
    boneTenderMedialMalleolus: false,
    painMidfoot: false,
    boneTenderFifthMetatarsalBase: false,
    boneTenderNavicular: false,
    fourStepsAtOnce: true,
    fourStepsNow: true,
  };
  const noSteps = { fourStepsAtOnce: false, fourStepsNow: false };
  it.each<[string, Partial<AnkleAndFoot>, boolean]>([
    ['lateral pain, no tenderness, four limping steps', { painAtMalleoli: true }, false],
    ['the same, four steps at neither time', { painAtMalleoli: true, ...noSteps }, true],
    ['four steps at once only', { painAtMalleoli: true, fourStepsNow: false }, false],
    ['four steps now only', { painAtMalleoli: true, fourStepsAtOnce: false }, false],
    ['lateral tenderness', { painAtMalleoli: true, boneTenderLateralMalleolus: true }, true],
    ['medial tenderness', { painAtMalleoli: true, boneTenderMedialMalleolus: true }, true],
    [
      'midfoot pain, malleolus tender only: another zone',
      { painMidfoot: true, boneTenderLateralMalleolus: true },
      false,
    ],
    ['midfoot pain, fifth metatarsal', { painMidfoot: true, boneTenderFifthMetatarsalBase: true }, true],
    ['midfoot pain, navicular', { painMidfoot: true, boneTenderNavicular: true }, true],
    ['midfoot pain, no steps', { painMidfoot: true, ...noSteps }, true],
    ['no pain in a zone', { boneTenderNavicular: true, boneTenderMedialMalleolus: true, ...noSteps }, false],
  ])('ankle: %s', (_case, found, met) => {
    expect(ankleInjuryCriteria({ ...ankle, ...found }, clinician)).toMatchObject({ met });
  });

  const knee: Knee = {
    ageYears: 54,
    onlyPatellaTender: false,
    fibularHeadTender: false,
    bendsToRightAngle: true,
    fourStepsAtOnce: true,
    fourStepsNow: true,
  };
  it.each<[string, Partial<Knee>, boolean]>([
    ['age 55 exactly', { ageYears: 55 }, true],
    ['age 54, all else negative', {}, false],
    ['patella', { onlyPatellaTender: true }, true],
    ['fibular head', { fibularHeadTender: true }, true],
    ['does not bend to 90°', { bendsToRightAngle: false }, true],
    ['no steps', noSteps, true],
    ['steps at once only', { fourStepsNow: false }, false],
  ])('knee: %s', (_case, found, met) => {
    const result = kneeInjuryCriteria({ ...knee, ...found }, clinician);
    expect(result).toMatchObject({ met });
    expect(result.findings.map(({ route }) => route)).toEqual(met ? ['same_day_medical'] : []);
  });

  it('is for adults', () => {
    expect(() => kneeInjuryCriteria({ ...knee, ageYears: 17 }, clinician)).toThrow(ClinicianInputInvalid);
    expect(kneeInjuryCriteria({ ...knee, ageYears: 18 }, clinician).met).toBe(false);
  });
});

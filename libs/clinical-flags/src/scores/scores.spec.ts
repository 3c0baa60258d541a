import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';

import { riderIntake } from '../questions/index.js';
import { routes, type Route } from '../rule.js';
import { evaluate } from '../rule-set.js';
import {
  ankleBrachialIndex,
  claudicationQuestions,
  ClinicianInputInvalid,
  exerciseIndex,
  kneeInjuryCriteria,
  neuropathyQuestionnaire,
  withClinicianScores,
  type ClinicianScore,
} from './index.js';
import type { Clinician } from '../finding.js';

const holm: Clinician = { name: 'Dr A. Holm', registration: '00000' };
const urgency = (route: Route | null): number => (route === null ? 0 : routes.length - routes.indexOf(route));

const pressure = fc.integer({ min: 1, max: 300 });
const index = fc.integer({ min: 0, max: 300 }).map((hundredths) => hundredths / 100);
const someScore: fc.Arbitrary<ClinicianScore> = fc.oneof(
  fc
    .tuple(pressure, pressure, pressure, pressure, fc.boolean())
    .map(([armRightMmHg, armLeftMmHg, dorsalisPedisMmHg, posteriorTibialMmHg, symptoms]) =>
      ankleBrachialIndex(
        { armRightMmHg, armLeftMmHg, dorsalisPedisMmHg, posteriorTibialMmHg },
        symptoms,
        holm,
      ),
    ),
  fc.tuple(index, index).map(([restIndex, afterIndex]) => exerciseIndex({ restIndex, afterIndex }, holm)),
  fc
    .tuple(fc.array(fc.boolean(), { minLength: 15, maxLength: 15 }), fc.boolean())
    .map(([yes, hasDiabetes]) => neuropathyQuestionnaire(yes, hasDiabetes, holm)),
);
const yesNoIds = riderIntake.questions.filter(({ kind, context }) => kind === 'yes_no' && !context);
const someFacts = fc.dictionary(
  fc.constantFrom(...yesNoIds.map(({ id }) => id)),
  fc.constantFrom('yes', 'no', 'unknown'),
  { maxKeys: 80 },
);

describe('what a clinician supplies', () => {
  it('never lowers the route, never allows more, and hides no finding', () => {
    fc.assert(
      fc.property(someFacts, fc.array(someScore, { maxLength: 3 }), (facts, scores) => {
        const before = evaluate(facts);
        const after = withClinicianScores(before, scores);
        expect(urgency(after.worstRoute)).toBeGreaterThanOrEqual(urgency(before.worstRoute));
        expect(after.permission.barred).toEqual(expect.arrayContaining([...before.permission.barred]));
        expect(before.findings.every((finding) => after.findings.includes(finding))).toBe(true);
        expect(after.openFacts).toEqual(before.openFacts);
      }),
    );
  });

  it('an index is what its definition says, to the hundredth and half up', () => {
    fc.assert(
      fc.property(pressure, pressure, pressure, (arm, dorsalisPedisMmHg, posteriorTibialMmHg) => {
        const pressures = { armRightMmHg: arm, armLeftMmHg: arm, dorsalisPedisMmHg, posteriorTibialMmHg };
        const { hundredths } = ankleBrachialIndex(pressures, false, holm);
        const ankle = Math.max(dorsalisPedisMmHg, posteriorTibialMmHg);
        // Half a hundredth either way, in whole numbers.
        expect(200 * ankle).toBeGreaterThanOrEqual((2 * hundredths - 1) * arm);
        expect(200 * ankle).toBeLessThan((2 * hundredths + 1) * arm);
      }),
    );
  });

  it('is kept with who supplied it', () => {
    const { findings } = neuropathyQuestionnaire(new Array<boolean>(15).fill(true), true, holm);
    expect(findings).toMatchObject([{ result: 'raised', suppliedBy: holm, because: [], unchanged: false }]);
  });

  it.each([
    ['clinician.name', { name: ' ', registration: '1' }],
    ['clinician.registration', { name: 'A', registration: '' }],
  ])('is refused without %s', (field, who) => {
    const pressures = {
      armRightMmHg: 120,
      armLeftMmHg: 120,
      dorsalisPedisMmHg: 130,
      posteriorTibialMmHg: 130,
    };
    const walking = {
      onWalking: false,
      startsStandingOrSitting: false,
      uphillOrHurrying: false,
      atOrdinaryPace: false,
      onStandingStill: 'lasts_longer',
      sites: [],
    } as const;
    const knee = {
      ageYears: 30,
      onlyPatellaTender: false,
      fibularHeadTender: false,
      bendsToRightAngle: true,
      fourStepsAtOnce: true,
      fourStepsNow: true,
    };
    for (const supply of [
      () => ankleBrachialIndex(pressures, false, who),
      () => exerciseIndex({ restIndex: 1, afterIndex: 1 }, who),
      () => claudicationQuestions(walking, who),
      () => neuropathyQuestionnaire([], false, who),
      () => kneeInjuryCriteria(knee, who),
    ]) {
      expect(supply).toThrow(expect.objectContaining({ constructor: ClinicianInputInvalid, field }));
    }
  });
});

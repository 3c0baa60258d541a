import { describe, expect, it } from '@jest/globals';
import { clientSummary } from './client-summary.js';
import type { Answer, OutcomeInputs, Report } from './outcome-inputs.js';
import { answer } from './testing/answer.js';

const before: Report = { pain: 6, comfort: 42, numbness: true, power20MinW: 214 };
const position = (saddleHeightMm: number, cleatMm: number) => ({
  saddleHeightMm,
  cleatBehindMth1LeftMm: cleatMm,
  cleatBehindMth1RightMm: cleatMm,
  crankLengthMm: null,
});
const summaryOf = (
  after: Partial<Answer>,
  baseline: Report | null = before,
  activitiesBefore: readonly number[] = [],
) =>
  clientSummary({
    baseline,
    activitiesBefore,
    answers: [answer(after)],
    found: position(712, 4),
    left: position(692, 31),
    plans: [],
    legLengthOption: null,
  });
const verdictsOf = (after: Partial<Answer>, baseline: Report | null = before): string[] =>
  summaryOf(after, baseline)
    .measures.slice(0, 3)
    .map(({ verdict }) => verdict);

describe('clientSummary', () => {
  it.each([
    ['better', { pain: 4, comfort: 53, power20MinW: 232 }, 'better'],
    // 30 % of 6 is 1.8, and 2 points are the error; 10.2 points of comfort; 8 % of 214 W is 17.1 W.
    ['no real change', { pain: 5, comfort: 52, power20MinW: 231 }, 'no real change'],
    ['worse', { pain: 8, comfort: 31, power20MinW: 196 }, 'worse'],
    ['cannot tell', {}, 'cannot tell'],
  ])('says %s of every measure', (_, after, verdict) => {
    expect(verdictsOf(after)).toEqual([verdict, verdict, verdict]);
  });

  it('cannot tell without a value from before, and says so', () => {
    expect(verdictsOf({ pain: 1 }, null)[0]).toBe('cannot tell');
    expect(summaryOf({ pain: 1 }, null).text).toContain(
      'Pain on the bike: cannot tell, as there is no value from before.',
    );
  });

  it('needs more of a larger pain to call it better, and says how much', () => {
    const [pain] = summaryOf({ pain: 7 }, { ...before, pain: 9 }).measures;
    expect(pain).toMatchObject({ detectable: 2, verdict: 'no real change' });
    expect(pain?.important).toBeCloseTo(2.7);
  });

  it('tells numb feet gone, stayed, come and unknown apart', () => {
    const verdict = (was: boolean | null, is: boolean | null) =>
      summaryOf({ numbness: is }, { ...before, numbness: was }).numbness.verdict;
    expect([verdict(true, false), verdict(true, true), verdict(false, true), verdict(null, false)]).toEqual([
      'better',
      'no real change',
      'worse',
      'cannot tell',
    ]);
  });

  const planned = (leftMm: number, saddleOffsetMm: number): OutcomeInputs => ({
    baseline: before,
    activitiesBefore: [],
    answers: [answer({ week: 2, ...before })],
    found: position(712, 4),
    left: position(712 + leftMm, 31),
    legLengthOption: null,
    plans: (['left', 'right'] as const).map((side) => ({
      side,
      formulaVersion: '1',
      saddleChangeMm: { value: -20, sd: 1.5 },
      saddleOffsetMm,
      footPitchDeg: 25,
      mth1FromHeelMm: 195,
      midfootFromHeelMm: 139,
    })),
  });

  it('holds the saddle left against the one computed, the studio’s own offset in it', () => {
    expect(clientSummary(planned(-17, 0)).saddle).toMatchObject({ differenceMm: 3, asPredicted: true });
    expect(clientSummary(planned(-16, 0)).saddle).toMatchObject({ differenceMm: 4, asPredicted: false });
    expect(clientSummary(planned(-16, 2)).saddle).toMatchObject({ predictedMm: -18, asPredicted: true });
    expect(summaryOf({}).saddle).toBeNull();
  });

  it.each([
    // Mean of activities: 2 points are the error (at 90 %), 1.3 matter. All in all: 2.5 matter, no error published.
    ['better', [6, 7, null], 3, 'better', 'better'],
    ['no real change', [5, 4, null], 2, 'no real change', 'no real change'],
    ['worse', [2, 1, null], -3, 'worse', 'worse'],
  ] as const)(
    'holds own activities and all in all against their thresholds: %s',
    (_, activities, overallChange, ofActivities, allInAll) => {
      const { measures } = summaryOf({ activities, overallChange }, before, [4, 3, 9]);
      expect(measures.slice(3)).toMatchObject([
        { measure: 'chosen_activities', before: 3.5, detectable: 2, important: 1.3, verdict: ofActivities },
        { measure: 'global_change', before: 0, detectable: null, important: 2.5, verdict: allInAll },
      ]);
    },
  );

  it('shows what has no threshold as it was told', () => {
    const found = summaryOf({ walkingComfort: 6, sprintFeel: 'worse', standingFeel: 'not_tried' });
    expect(found.told).toEqual({ walkingComfort: 6, sprintFeel: 'worse', standingFeel: 'not_tried' });
    expect(found.text).toContain(
      [
        'Walking in your cycling shoes: 6 of 10. How large a change of it matters is not known.',
        'Sprinting: worse than before the fit.',
        'Riding out of the saddle: not tried yet.',
      ].join('\n'),
    );
  });

  it('spells own activities and all in all', () => {
    const { text } = summaryOf({ activities: [6, null, null], overallChange: -3 }, before, [4]);
    expect(text).toContain(
      'What you wanted to do better: 4 of 10 before, 6 of 10 now: better. A change of 2 of 10 counts',
    );
    expect(text).toContain(
      'All in all: −3, on a scale from −5 to +5: worse. A change of 2.5 counts as real.',
    );
  });

  it('reads as a text that can be sent', () => {
    expect(summaryOf({ pain: 1, comfort: 81, numbness: false, power20MinW: 217 }).text).toBe(
      [
        '6 weeks after your fit, compared with before:',
        'Pain on the bike: 6 of 10 before, 1 of 10 now: better. A change of 2 of 10 counts as real.',
        'Comfort on the bike: 42 of 100 before, 81 of 100 now: better. A change of 10.2 of 100 counts as real.',
        '20-minute power: 214 W before, 217 W now: no real change. Less than 17 W can be chance, or too little to matter.',
        'Numb feet: before, not now.',
        'A change after a fit is not proof that the fit did it. If anything new worries you, tell us or a doctor; do not wait for the next question.',
      ].join('\n'),
    );
  });
});

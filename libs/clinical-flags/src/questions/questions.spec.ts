import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';

import { factsOf } from '../condition.js';
import { evaluate } from '../rule-set.js';
import {
  bodySites,
  checkAnswers,
  duringTheSession,
  factsFrom,
  findQuestionSet,
  firstDays,
  firstRide,
  problemOf,
  questionSets,
  relevantQuestions,
  riderIntake,
  sessionStart,
  sinceTheFit,
  type Question,
} from './index.js';

const keys = (set: typeof riderIntake, given: Record<string, unknown>): string[] =>
  relevantQuestions(set, given).map(({ key }) => key);

describe('every set', () => {
  it.each(questionSets.map((set) => [`${set.id} ${set.version}`, set] as const))(
    '%s is sound',
    (_name, set) => {
      const ids = set.questions.map(({ id }) => id);
      expect(new Set(ids).size).toBe(ids.length);
      expect(set.sections.flatMap(({ questions }) => questions)).toEqual(ids);
      expect(JSON.parse(JSON.stringify(set))).toEqual(set);
      for (const { id, text, onlyWhen } of set.questions) {
        expect(text).toMatch(/\?$/);
        // What decides whether it is asked is asked before it.
        const earlier = ids.slice(0, ids.indexOf(id));
        for (const fact of onlyWhen ? factsOf(onlyWhen) : []) expect(earlier).toContain(fact);
      }
      expect(findQuestionSet(set.id, set.version)).toBe(set);
    },
  );

  it('has an id and version of its own, and unknown ones are not found', () => {
    const names = questionSets.map(({ id, version }) => `${id} ${version}`);
    expect(new Set(names).size).toBe(names.length);
    expect(findQuestionSet('rider-intake', '0')).toBeNull();
  });

  it('the first published versions ask what they asked then', () => {
    const intake = findQuestionSet('rider-intake', '1');
    expect(intake?.questions.map(({ id }) => id)).toEqual([
      'chest_pain',
      'leg_swelling_one_sided_new',
      'saddle_numb',
      'saddle_numb_day_after',
      'bladder_or_bowel_change',
      'both_legs_weak_or_numb',
      'one_leg_fades_on_hard_effort',
      'one_leg_settles_at_rest',
      'calf_pain_on_walking',
      'foot_numb_on_bike',
      'foot_numb_off_bike',
    ]);
    expect(findQuestionSet('since-the-fit', '1')?.questions).toEqual(intake?.questions);
  });

  it('sites are named left and right, front or back', () => {
    expect(new Set(bodySites.map(({ id }) => id)).size).toBe(bodySites.length);
    expect(bodySites.find(({ id }) => id === 'left_calf')).toEqual({
      id: 'left_calf',
      label: 'Left calf',
      site: 'calf',
      side: 'left',
      view: 'back',
    });
    expect(bodySites.find(({ id }) => id === 'saddle_area')?.side).toBeNull();
  });
});

describe('checking answers', () => {
  const asked = { id: 'q', text: 'Q?' };
  const cases: [string, Question, unknown[], unknown[]][] = [
    ['yes_no', { ...asked, kind: 'yes_no' }, ['yes', 'no', 'unknown'], ['maybe', true, 1, null, []]],
    ['agreement', { ...asked, kind: 'yes_no', context: true }, ['yes', 'no'], ['unknown', 'maybe']],
    [
      'number',
      { ...asked, kind: 'number', min: 0, max: 10, unit: 'of 10' },
      [0, 10, 'unknown'],
      [-1, 11, 4.5, '4', NaN, Infinity, null],
    ],
    [
      'number with decimals',
      { ...asked, kind: 'number', min: 0, max: 120, unit: 'hours', decimals: true },
      [0, 11.98, 120],
      [-0.1, 120.1, NaN, '12'],
    ],
    [
      'one_of',
      { ...asked, kind: 'one_of', options: [{ id: 'a', label: 'A' }] },
      ['a', 'unknown'],
      ['b', ['a'], 1],
    ],
    [
      'several_of',
      {
        ...asked,
        kind: 'several_of',
        options: [
          { id: 'a', label: 'A' },
          { id: 'b', label: 'B' },
        ],
      },
      [[], ['a'], ['b', 'a'], 'unknown'],
      ['a', ['c'], ['a', 'a'], [1], null],
    ],
    [
      'body_sites',
      { ...asked, kind: 'body_sites', sites: bodySites },
      [[], ['left_calf', 'neck'], 'unknown'],
      [['calf'], ['neck', 'neck'], 'neck'],
    ],
    [
      'date',
      { ...asked, kind: 'date', context: true },
      ['2024-02-29'],
      ['2023-02-29', ['2024-02-29'], '2024-13-01', '1.2.2024', 20240229, 'unknown'],
    ],
    ['text', { ...asked, kind: 'text', maxLength: 3, context: true }, ['', 'abc'], ['abcd', 3, null]],
  ];
  it.each(cases)('%s', (_kind, question, right, wrong) => {
    for (const answer of right) expect([answer, problemOf(question, answer)]).toEqual([answer, null]);
    for (const answer of wrong)
      expect([answer, problemOf(question, answer)]).toEqual([answer, expect.any(String)]);
  });

  it('names the question, whatever is wrong, and says nothing of the rest', () => {
    const problems = checkAnswers(riderIntake, {
      chest_pain: 'perhaps',
      shoe_size: 43,
      age_years: 4,
      complaint_worst: 3,
      'complaint_worst@left_calf': 11,
      'complaint_worst@calf': 3,
      'age_years@left_calf': 30,
      saddle_numb: 'no',
    });
    expect(problems.map(({ question }) => question)).toEqual([
      'chest_pain',
      'shoe_size',
      'age_years',
      'complaint_worst',
      'complaint_worst@left_calf',
      'complaint_worst@calf',
      'age_years@left_calf',
    ]);
    expect(problems[2]?.message).toBe('must be a whole number from 6 to 110 (years)');
  });

  it('takes anything without failing', () => {
    fc.assert(
      fc.property(fc.dictionary(fc.string(), fc.anything()), (given) => {
        expect(checkAnswers(riderIntake, given)).toHaveLength(Object.keys(given).length);
      }),
    );
  });
});

describe('what is asked', () => {
  it('follows the answers', () => {
    expect(keys(riderIntake, {})).not.toContain('saddle_numb_day_after');
    expect(keys(riderIntake, { saddle_numb: 'no' })).not.toContain('saddle_numb_day_after');
    expect(keys(riderIntake, { saddle_numb: 'unknown' })).toContain('saddle_numb_day_after');
    expect(keys(riderIntake, { medical_conditions: ['clot'] })).toContain('clot_cleared');
    expect(keys(riderIntake, { age_years: 17 })).toContain('guardian_agrees');
    expect(keys(riderIntake, { age_years: 18 })).not.toContain('guardian_agrees');
  });

  it('goes site by site, in the order they were named', () => {
    const asked = keys(riderIntake, { complaint_sites: ['neck', 'left_calf'] });
    const perSite = asked.filter((key) => key.includes('@'));
    expect(perSite.slice(0, 5).every((key) => key.endsWith('@neck'))).toBe(true);
    expect(perSite.slice(5).every((key) => key.endsWith('@left_calf'))).toBe(true);
    expect(perSite).toHaveLength(10);
    expect(asked.indexOf('unchanged_after_two_fits')).toBe(asked.indexOf('complaint_rises@left_calf') + 1);
  });

  it.each([sessionStart, duringTheSession])('$id asks one question when nothing is new', (set) => {
    expect(keys(set, {})).toEqual(['anything_new']);
    expect(keys(set, { anything_new: 'no' })).toEqual(['anything_new']);
    const some = keys(set, { anything_new: 'yes', new_about: ['feet'] });
    expect(some).toEqual(expect.arrayContaining(['chest_pain', 'foot_signs', 'complaint_sites']));
    expect(some).not.toContain('medical_conditions');
  });

  it('after a fit everyone is asked where it hurts, whether the feet go numb, and how it went', () => {
    const health = (set: typeof sinceTheFit, given: Record<string, unknown>) =>
      relevantQuestions(set, given)
        .filter(({ context }) => !context)
        .map(({ key }) => key);
    for (const set of [sinceTheFit, firstDays]) {
      expect(health(set, { anything_new: 'no' })).toEqual([
        'anything_new',
        'complaint_sites',
        'foot_numb_on_bike',
      ]);
      const some = keys(set, { anything_new: 'yes', new_about: ['feet'], complaint_sites: ['left_calf'] });
      expect(some).toEqual(
        expect.arrayContaining(['chest_pain', 'foot_signs', 'complaint_worst@left_calf', 'worry']),
      );
      expect(some).not.toContain('medical_conditions');
    }
    expect(health(firstRide, { anything_new: 'no' })).toEqual(['anything_new']);
  });

  it('what hurts after a fit is judged though nothing is said to be new', () => {
    const before = factsFrom(riderIntake, { complaint_sites: [] });
    const given = {
      ...{ anything_new: 'no', complaint_sites: ['left_calf'] },
      ...{ 'complaint_quality@left_calf': ['pain'], 'complaint_worst@left_calf': 8 },
    };
    const raised = evaluate(factsFrom(sinceTheFit, given, before), before).findings.filter(
      ({ result }) => result === 'raised',
    );
    expect(raised.map(({ ruleId }) => ruleId)).toContain('severe-or-resting-pain');
  });
});

describe('facts', () => {
  it('a needless question counts as no or nothing, an unanswered one settles nothing', () => {
    expect(factsFrom(riderIntake, { saddle_numb: 'no', chest_pain: 'no' })).toMatchObject({
      saddle_numb_day_after: 'no',
      chest_pain_hours_ago: 'none',
    });
    expect(factsFrom(riderIntake, { saddle_numb: 'yes' })).toEqual({ saddle_numb: 'yes' });
    expect(factsFrom(riderIntake, { saddle_numb: 'no', saddle_numb_day_after: 'yes' })).toMatchObject({
      saddle_numb_day_after: 'yes',
    });
  });

  it('leave out what is only for the fitter', () => {
    expect(factsFrom(riderIntake, { goals: ['speed'], agrees_to_health_data: 'yes' })).toEqual({});
  });

  it('nothing new: all stands as it was, and what was open stays open', () => {
    const before = factsFrom(riderIntake, { saddle_numb: 'no', coughed_blood: 'no' });
    const now = factsFrom(sessionStart, { anything_new: 'no' }, before);
    expect(now).toEqual({ ...before, anything_new: 'no', new_about: 'none' });
    expect(evaluate(now, before).openFacts).toContain('chest_pain');
  });

  it('by themselves a short set’s "nothing new" lets nobody ride', () => {
    expect(evaluate(factsFrom(sessionStart, { anything_new: 'no' })).permission.level).toBe('none');
  });

  it('something new: what is asked and not answered is open again, what is not asked stands', () => {
    const before = factsFrom(riderIntake, { chest_pain: 'no', foot_numb_on_bike: 'no', medicines: [] });
    const now = factsFrom(
      sessionStart,
      { anything_new: 'yes', new_about: ['feet'], foot_numb_on_bike: 'yes' },
      before,
    );
    expect(now).toMatchObject({ foot_numb_on_bike: 'yes', medicines: [] });
    expect(now).not.toHaveProperty('chest_pain');
  });

  it('something new, and nobody says what: everything is open again', () => {
    const before = factsFrom(riderIntake, { calf_snapped: 'no', medicines: [] });
    const now = factsFrom(sessionStart, { anything_new: 'yes' }, before);
    expect(now).not.toHaveProperty('calf_snapped');
    expect(now).not.toHaveProperty('medicines');
  });
});

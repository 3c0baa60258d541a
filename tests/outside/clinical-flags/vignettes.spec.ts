import { describe, expect, it } from '@jest/globals';
import { deskNotice, type Answers, type Route } from '@studio/clinical-flags';
import { fitOf, resultOf, screened } from './intake.js';

const E: Route = 'emergency_now';
const S: Route = 'same_day_medical';
const G: Route = 'gp_within_days';
const Gv: Route = 'gp_for_vascular_specialist';
const C: Route = 'fit_with_caution';

const routed = (reported: Answers) => {
  const evaluation = screened(reported);
  return { route: evaluation.worstRoute, fit: fitOf(evaluation) };
};

it('a rider with nothing to report is booked: nothing is raised and nothing is open', () => {
  const evaluation = screened({});
  expect(evaluation).toMatchObject({ worstRoute: null, permission: { level: 'full' }, openFacts: [] });
  expect(deskNotice(evaluation)).toBe('may_be_booked');
});

describe('one leg on hard effort', () => {
  // Published: Circulation 1999;100:e38. Aged 18, racing, 18 months of left thigh pain and swelling feeling at maximal
  // effort only, resting indices of 1.10 and 1.15. Walking pain is not reported: taken as none.
  it('published case: a young racer is sent to a vascular specialist although all is well at rest', () => {
    const reported = {
      age_years: 18,
      one_leg_fades_on_hard_effort: 'yes',
      one_leg_settles_at_rest: 'yes',
      one_leg_fades_at_ordinary_load: 'no',
      complaint_sites: [],
    };
    expect(routed(reported)).toEqual({ route: Gv, fit: 'LTD' });
    expect(screened(reported).permission.barred).toEqual(['hard_effort', 'provocation_test']);
  });

  // Acute limb ischaemia: NHS Highland vascular guideline; RCEM Learning. Not settling: common practice, no source.
  it.each<[string, Answers, Route]>([
    ['and stays cold or pale after it', { one_leg_cold_or_pale_after_effort: 'yes' }, E],
    ['and nobody knows whether it stays cold', { one_leg_cold_or_pale_after_effort: 'unknown' }, E],
    ['and does not settle', { one_leg_settles_at_rest: 'no' }, S],
    ['and nobody knows whether it settles', { one_leg_settles_at_rest: 'unknown' }, S],
  ])('fades %s', (_story, more, route) => {
    expect(routed({ one_leg_fades_on_hard_effort: 'yes', one_leg_settles_at_rest: 'yes', ...more })).toEqual({
      route,
      fit: 'NO',
    });
  });

  it('leg pain on walking bars shoe work', () => {
    const { worstRoute, permission } = screened({ calf_pain_on_walking: 'yes' });
    expect(worstRoute).toBe(Gv);
    expect(permission.barred).toContain('shoe_work');
  });
});

// UK national pathway on cauda equina syndrome (BMJ Best Practice). The one-day limit is common practice, no source.
describe('saddle numbness and the nerves of the lower back', () => {
  const numb = { saddle_numb: 'yes' };
  it.each<[string, Answers, Route, string]>([
    ['numb after 2 h, gone in 1 h, nothing else', numb, C, 'YES'],
    ['the same, and hesitancy passing urine', { ...numb, bladder_or_bowel_change: 'yes' }, E, 'NO'],
    ['a sexual change of 10 days, nothing else', { sexual_change: 'yes' }, G, 'LTD'],
    ['still numb 26 h after the ride, nothing else', { ...numb, saddle_numb_day_after: 'yes' }, S, 'NO'],
    ['numb on waking, no ride for 3 days, no back pain', { ...numb, saddle_numb_day_after: 'yes' }, S, 'NO'],
    [
      'the same with new back pain',
      { ...numb, saddle_numb_day_after: 'yes', back_pain: 'yes', back_pain_new_or_worse: 'yes' },
      E,
      'NO',
    ],
    ['numb, and "don\'t know" of both legs', { ...numb, both_legs_weak_or_numb: 'unknown' }, E, 'NO'],
    [
      'numb, and "don\'t know" of bladder and bowel',
      { ...numb, bladder_or_bowel_change: 'unknown' },
      E,
      'NO',
    ],
    ['back pain and both legs weak', { back_pain: 'yes', both_legs_weak_or_numb: 'yes' }, E, 'NO'],
  ])('%s', (_story, reported, route, fit) => {
    expect(routed(reported)).toEqual({ route, fit });
  });
});

// NICE CG95: pain now or within 12 h without a normal ECG is an emergency, 12 to 72 h ago the same day. The edge at
// exactly 12 h is not fixed there: taken as within. Older than that: common practice, no source.
describe('chest pain by the clock', () => {
  it.each<[string, Answers, Route, string]>([
    ['now', { chest_pain: 'yes', chest_pain_hours_ago: 0 }, E, 'NO'],
    ['11 h 59 ago', { chest_pain: 'yes', chest_pain_hours_ago: 11 + 59 / 60 }, E, 'NO'],
    ['exactly 12 h ago', { chest_pain: 'yes', chest_pain_hours_ago: 12 }, E, 'NO'],
    ['12 h 01 ago', { chest_pain: 'yes', chest_pain_hours_ago: 12 + 1 / 60 }, S, 'NO'],
    ['72 h ago', { chest_pain: 'yes', chest_pain_hours_ago: 72 }, S, 'NO'],
    ['73 h ago, free of pain', { chest_pain: 'no', chest_pain_older: 'yes' }, G, 'NO'],
    ['some time in three days', { chest_pain: 'yes', chest_pain_hours_ago: 'unknown' }, E, 'NO'],
  ])('%s', (_story, reported, route, fit) => {
    expect(routed(reported)).toEqual({ route, fit });
  });
});

// Riebe et al. 2015, Med Sci Sports Exerc 47:2473–9: activity, known disease, signs, intensity.
describe('clearance before exercise', () => {
  const active = { active_days_per_week: 3, active_minutes_per_day: 45, active_months: 3 };
  const stent = { ...active, medical_conditions: ['heart'], cleared_for_hard_exercise: 'yes' };
  it.each<[string, Answers, Route | null, string]>([
    [
      'inactive, diabetes, no symptoms: clearance',
      { active_days_per_week: 0, medical_conditions: ['diabetes'], cleared_for_hard_exercise: 'no' },
      G,
      'NO',
    ],
    ['rides 3 × 45 min a week for 3 months, nothing known: none', active, null, 'YES'],
    ['the same for 2 months only, nothing known: none', { ...active, active_months: 2 }, null, 'YES'],
    [
      'the same for 2 months only, with a stent: counts as inactive',
      { ...stent, active_months: 2, cleared_months_ago: 5 },
      G,
      'NO',
    ],
    [
      'active, stent, last cleared 13 months ago: no hard effort',
      { ...stent, cleared_months_ago: 13 },
      G,
      'LTD',
    ],
    [
      'active, stent, cleared 5 months ago and unchanged: none',
      { ...stent, cleared_months_ago: 5 },
      null,
      'YES',
    ],
    ['active, new tightness on effort: stop', { ...active, heart_signs: ['tight_on_effort'] }, G, 'NO'],
  ])('%s', (_story, reported, route, fit) => {
    expect(routed(reported)).toEqual({ route, fit });
  });
});

// Stiell et al. 1992–95: of the Ottawa ankle and knee rules the parts that need no palpation. The rest is read by a
// clinician: tenderness, and the age of 55 at the knee, are not asked.
describe('an injury', () => {
  const injury = { injury_recent: 'yes' };
  it.each<[string, Answers, Route | null]>([
    ['hurts, four limping steps are possible', { ...injury, injury_signs: [] }, null],
    ['cannot take four steps', { ...injury, injury_signs: ['cannot_take_four_steps'] }, S],
    ['cannot bend the knee to 90°', { ...injury, injury_signs: ['cannot_bend_knee'] }, S],
  ])('%s', (_story, reported, route) => {
    expect(routed(reported).route).toBe(route);
  });
});

// NICE NG158; Wells et al. 2003 (circumstances). Leg with chest signs: common practice.
describe('leg signs', () => {
  const swollen = { leg_swelling_one_sided_new: 'yes' };
  it.each<[string, Answers, Route]>([
    ['new swelling of one leg', swollen, S],
    ['and breathless', { ...swollen, breathless_at_rest: 'yes' }, E],
    ['six weeks after surgery', { ...swollen, recent_events: ['surgery'], surgeon_allows_riding: 'yes' }, S],
    ['calf thicker by exactly 3 cm', { calf_newly_thicker: 'yes', calf_girth_difference_mm: 30 }, S],
  ])('%s', (_story, reported, route) => {
    expect(routed(reported)).toEqual({ route, fit: 'NO' });
  });

  it('with a circumstance that raises the risk say: phone ahead', () => {
    const evaluation = screened({ ...swollen, medicines: ['oestrogen'] });
    expect(resultOf(evaluation, 'leg-signs-with-clot-risk')).toBe('raised');
  });
});

// NICE NG19 and IWGDF 2019; the shoe-work list is common practice, no source.
describe('feet', () => {
  const diabetes = {
    medical_conditions: ['diabetes'],
    cleared_for_hard_exercise: 'yes',
    cleared_months_ago: 2,
  };
  it.each<[string, Answers, Route, string]>([
    ['numb on the bike only', { foot_numb_on_bike: 'yes' }, C, 'YES'],
    ['diabetes and a blister', { ...diabetes, foot_signs: ['open_sore'] }, S, 'NO'],
    [
      'diabetes, a blister and fever',
      { ...diabetes, foot_signs: ['open_sore'], body_signs: ['fever'] },
      E,
      'NO',
    ],
    ['diabetes and nothing to see', diabetes, C, 'LTD'],
    ['one foot suddenly cold and pale', { leg_suddenly_cold_or_pale: 'yes' }, E, 'NO'],
  ])('%s', (_story, reported, route, fit) => {
    expect(routed(reported)).toEqual({ route, fit });
  });
});

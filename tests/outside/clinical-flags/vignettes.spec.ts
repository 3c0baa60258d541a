import { describe, expect, it } from '@jest/globals';
import { evaluate, factsFrom, riderIntake } from '@studio/clinical-flags';

const nothingElse = Object.fromEntries(riderIntake.questions.map(({ id }) => [id, 'no']));
const screened = (answers: Record<string, string>) =>
  evaluate(factsFrom(riderIntake, { ...nothingElse, ...answers }));

describe('vignettes', () => {
  it('published case: one leg fails a young racer at maximal effort only, no pain on walking (Circulation 1999;100:e38)', () => {
    const { worstRoute, permission } = screened({
      one_leg_fades_on_hard_effort: 'yes',
      one_leg_settles_at_rest: 'yes',
    });
    expect(worstRoute).toBe('gp_for_vascular_specialist');
    expect(permission).toEqual({ level: 'limited', barred: ['hard_effort', 'provocation_test'] });
  });

  // Computed from the UK national pathway on cauda equina syndrome; the one-day limit is common practice, no source.
  it.each([
    [
      'still numb 26 h after the ride',
      { saddle_numb: 'yes', saddle_numb_day_after: 'yes' },
      'same_day_medical',
    ],
    [
      'numb, and hesitancy passing urine',
      { saddle_numb: 'yes', bladder_or_bowel_change: 'yes' },
      'emergency_now',
    ],
    [
      'numb, and "don\'t know" of the legs',
      { saddle_numb: 'yes', both_legs_weak_or_numb: 'unknown' },
      'emergency_now',
    ],
  ])('saddle numbness, %s', (_story, answers, route) => {
    const { worstRoute, permission } = screened(answers);
    expect(worstRoute).toBe(route);
    expect(permission.level).toBe('none');
  });

  it('chest pain now is an emergency (NICE CG95)', () => {
    expect(screened({ chest_pain: 'yes' }).worstRoute).toBe('emergency_now');
  });
});

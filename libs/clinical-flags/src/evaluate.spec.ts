import { describe, expect, it } from '@jest/globals';
import { evaluateRules } from './evaluate.js';
import type { Rule } from './rule.js';
import { calfPainOnWalking } from './rules/calf-pain-on-walking.js';

describe('a rule for some riders only', () => {
  const rule: Rule = { ...calfPainOnWalking, appliesWhen: { yes: 'saddle_numb' } };
  const judged = (facts: Record<string, string>) => {
    const { findings, permission } = evaluateRules([rule], 'test', facts);
    return [findings[0]?.result, permission.level];
  };

  it.each([
    [{ saddle_numb: 'no', calf_pain_on_walking: 'yes' }, 'not_applicable', 'full'],
    [{ saddle_numb: 'yes', calf_pain_on_walking: 'yes' }, 'raised', 'limited'],
    [{ saddle_numb: 'yes', calf_pain_on_walking: 'no' }, 'clear', 'full'],
    // Whether it applies is not known: that is no reassurance, unless what it looks for is not there.
    [{ calf_pain_on_walking: 'yes' }, 'cannot_tell', 'limited'],
    [{ saddle_numb: 'unknown', calf_pain_on_walking: 'yes' }, 'cannot_tell', 'limited'],
    [{ calf_pain_on_walking: 'no' }, 'clear', 'full'],
    [{}, 'cannot_tell', 'limited'],
  ])('%j: %s', (facts, result, level) => {
    expect(judged(facts)).toEqual([result, level]);
  });
});

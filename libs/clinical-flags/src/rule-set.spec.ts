import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';

import type { Condition } from './condition.js';
import { evaluateRules, factsOfRule } from './evaluate.js';
import type { FactId, Facts, YesNo } from './facts.js';
import { questionSets } from './questions/index.js';
import { activities, routes, type Route } from './rule.js';
import { evaluate, rules } from './rule-set.js';
import { mutantsOf } from './testing/mutants.js';

type Judged = 'raised' | 'clear' | 'cannot_tell';

const fixtures: Readonly<Record<string, Readonly<Record<Judged, Facts>>>> = {
  'chest-pain': { raised: { chest_pain: 'yes' }, clear: { chest_pain: 'no' }, cannot_tell: {} },
  'saddle-numbness-with-cord-signs': {
    raised: { saddle_numb: 'yes', both_legs_weak_or_numb: 'yes' },
    clear: { saddle_numb: 'yes', bladder_or_bowel_change: 'no', both_legs_weak_or_numb: 'no' },
    cannot_tell: { saddle_numb: 'yes', bladder_or_bowel_change: 'no' },
  },
  'bladder-bowel-or-both-legs': {
    raised: { saddle_numb: 'no', both_legs_weak_or_numb: 'yes' },
    clear: { bladder_or_bowel_change: 'no', both_legs_weak_or_numb: 'no' },
    cannot_tell: { bladder_or_bowel_change: 'no' },
  },
  'new-one-sided-leg-swelling': {
    raised: { leg_swelling_one_sided_new: 'unknown' },
    clear: { leg_swelling_one_sided_new: 'no' },
    cannot_tell: {},
  },
  'saddle-numbness-a-day-later': {
    raised: { saddle_numb_day_after: 'yes' },
    clear: { saddle_numb_day_after: 'no' },
    cannot_tell: { saddle_numb: 'yes' },
  },
  'one-leg-fades-on-hard-effort': {
    raised: { one_leg_fades_on_hard_effort: 'yes', one_leg_settles_at_rest: 'yes' },
    clear: { one_leg_fades_on_hard_effort: 'no' },
    cannot_tell: { one_leg_fades_on_hard_effort: 'yes', one_leg_settles_at_rest: 'unknown' },
  },
  'calf-pain-on-walking': {
    raised: { calf_pain_on_walking: 'yes' },
    clear: { calf_pain_on_walking: 'no' },
    cannot_tell: { calf_pain_on_walking: 'unknown' },
  },
  'foot-numb-off-the-bike': {
    raised: { foot_numb_off_bike: 'yes' },
    clear: { foot_numb_off_bike: 'no' },
    cannot_tell: { foot_numb_off_bike: 'unknown' },
  },
  'foot-numb-on-the-bike': {
    raised: { foot_numb_on_bike: 'yes', foot_numb_off_bike: 'no' },
    clear: { foot_numb_on_bike: 'no' },
    cannot_tell: { foot_numb_on_bike: 'yes' },
  },
};

const factIds = [...new Set(rules.flatMap(factsOfRule))];
const someFacts = fc.record(
  Object.fromEntries(factIds.map((id) => [id, fc.constantFrom<YesNo>('yes', 'no', 'unknown')])),
  { requiredKeys: [] },
) as fc.Arbitrary<Facts>;
const someFact = fc.constantFrom<FactId>(...factIds);

const urgency = (route: Route | null): number => (route === null ? 0 : routes.length - routes.indexOf(route));

describe('every rule', () => {
  it.each(rules.map(({ id }) => id))('%s is raised, clear and cannot tell as its fixtures say', (id) => {
    const own = fixtures[id];
    if (!own) throw new Error(`${id} has no fixtures`);
    for (const [result, facts] of Object.entries(own)) {
      expect(evaluate(facts).findings.find(({ ruleId }) => ruleId === id)?.result).toBe(result);
    }
  });

  it.each<[Facts, Judged]>([
    [{ saddle_numb: 'yes', bladder_or_bowel_change: 'yes' }, 'raised'],
    [{ saddle_numb: 'no' }, 'clear'],
  ])('about saddle numbness needs the numbness and one sign: %j', (facts, result) => {
    const found = evaluate(facts).findings.find(({ ruleId }) => ruleId === 'saddle-numbness-with-cord-signs');
    expect(found?.result).toBe(result);
  });

  it('reads only what a question asks, and every question is read by a rule', () => {
    const asked = new Set(questionSets.flatMap(({ questions }) => questions.map(({ id }) => id)));
    expect([...asked].sort()).toEqual([...factIds].sort());
  });
});

/** Every way to answer what a rule reads, unanswered included. */
const allAnswers = (ids: readonly FactId[]): Facts[] =>
  ids.reduce<Facts[]>(
    (sofar, id) =>
      sofar.flatMap((facts) => [
        facts,
        ...(['yes', 'no', 'unknown'] as const).map((answer) => ({ ...facts, [id]: answer })),
      ]),
    [{}],
  );

describe('no part of a condition is idle', () => {
  it.each(rules.map((rule) => [rule.id, rule] as const))(
    '%s with one thing wrong judges some answers differently',
    (_id, rule) => {
      const judged = (raisedWhen: Condition): string =>
        allAnswers(factsOfRule(rule))
          .map((facts) => evaluateRules([{ ...rule, raisedWhen }], 'test', facts).findings[0]?.result)
          .join();
      const right = judged(rule.raisedWhen);
      for (const mutant of mutantsOf(rule.raisedWhen)) expect(judged(mutant.condition)).not.toBe(right);
    },
  );
});

describe('all rules together', () => {
  it('let nobody ride of whom nothing is known', () => {
    expect(evaluate({}).permission).toEqual({ level: 'none', barred: activities });
    expect([...evaluate({}).openFacts].sort()).toEqual([...factIds].sort());
  });

  it('never lower the route or allow more when an answer turns to yes', () => {
    fc.assert(
      fc.property(someFacts, someFact, (facts, id) => {
        const { [id]: was } = facts as Record<string, unknown>;
        fc.pre(was === undefined || was === 'no');
        const before = evaluate(facts);
        const after = evaluate({ ...facts, [id]: 'yes' });
        expect(urgency(after.worstRoute)).toBeGreaterThanOrEqual(urgency(before.worstRoute));
        if (was === 'no') {
          expect(after.permission.barred).toEqual(expect.arrayContaining([...before.permission.barred]));
        }
      }),
    );
  });

  it('do not mind the order of the answers', () => {
    fc.assert(
      fc.property(someFacts, (facts) => {
        const turned = Object.fromEntries(Object.entries(facts).reverse()) as Facts;
        const { findings, ...rest } = evaluate(turned);
        expect({ findings, ...rest }).toEqual(evaluate(facts));
      }),
    );
  });
});

import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';

import { factsOfRule } from './evaluate.js';
import type { Facts } from './facts.js';
import { bodySites, riderIntake, type Question } from './questions/index.js';
import { activities, routes, type Route } from './rule.js';
import { evaluate, rules } from './rule-set.js';

const health = riderIntake.questions.filter(({ context }) => !context);

/** Answers that reassure when they are yes: the way up is towards "no". */
const reassuring: readonly string[] = [
  'one_leg_settles_at_rest',
  'cleared_for_hard_exercise',
  'circulation_cleared',
  'clot_cleared',
  'leg_artery_surgeon_agrees',
  'surgeon_allows_riding',
  'guardian_agrees',
];
/** Numbers of which the smaller one is the worse. */
const worseWhenLower: readonly string[] = [
  'age_years',
  'chest_pain_hours_ago',
  'active_days_per_week',
  'active_minutes_per_day',
  'active_months',
];

const someSites = fc.uniqueArray(fc.constantFrom(...bodySites.map(({ id }) => id)), { maxLength: 4 });

function answerTo(question: Question): fc.Arbitrary<unknown> {
  switch (question.kind) {
    case 'yes_no':
      return fc.constantFrom('yes', 'no', 'unknown');
    case 'number':
      return fc.oneof(
        { weight: 9, arbitrary: fc.integer({ min: question.min, max: Math.min(question.max, 60) }) },
        { weight: 1, arbitrary: fc.constant('unknown') },
      );
    case 'one_of':
      return fc.constantFrom(...question.options.map(({ id }) => id), 'unknown');
    case 'several_of':
      return fc.oneof(
        fc.uniqueArray(fc.constantFrom(...question.options.map(({ id }) => id))),
        fc.constant('unknown'),
      );
    case 'body_sites':
      return fc.oneof({ weight: 5, arbitrary: someSites }, { weight: 1, arbitrary: fc.constant('unknown') });
    case 'date':
    case 'text':
      throw new Error(`${question.id} is no fact`);
  }
}

const keysAndQuestions = health.flatMap((question): [string, Question][] =>
  question.perSite
    ? bodySites.map(({ id }) => [`${question.id}@${id}`, question])
    : [[question.id, question]],
);
const arbitraryOf = (requiredKeys: readonly string[]): fc.Arbitrary<Facts> =>
  fc.record(Object.fromEntries(keysAndQuestions.map(([key, question]) => [key, answerTo(question)])), {
    requiredKeys: [...requiredKeys],
  });
const someFacts = arbitraryOf([]);
const allFacts = arbitraryOf(keysAndQuestions.map(([key]) => key));

/** The same answers with one of them changed towards the worse, and what it was before. */
const turnedWorse = fc
  .tuple(someFacts, fc.constantFrom(...keysAndQuestions), fc.nat())
  .map(([facts, [key, question], pick]) => {
    const was = (facts as Record<string, unknown>)[key];
    return { facts, was, worse: { ...facts, [key]: worseThan(question, was, pick) } };
  })
  .filter(({ worse, was }) => !Object.values<unknown>(worse).includes(undefined) && was !== 'unknown');

function worseThan(question: Question, was: unknown, pick: number): unknown {
  switch (question.kind) {
    case 'yes_no':
      return reassuring.includes(question.id) ? 'no' : 'yes';
    case 'number': {
      const start = typeof was === 'number' ? was : question.min;
      return worseWhenLower.includes(question.id)
        ? Math.max(question.min, start - (pick % 40))
        : Math.min(question.max, start + (pick % 40));
    }
    case 'one_of': {
      const options = question.options.map(({ id }) => id);
      return options[Math.max(options.indexOf(String(was)), 0) + 1] ?? options.at(-1);
    }
    case 'several_of':
    case 'body_sites': {
      const options = (question.kind === 'body_sites' ? question.sites : question.options).map(
        ({ id }) => id,
      );
      const option = options[pick % options.length];
      return [...new Set([...(Array.isArray(was) ? (was as string[]) : []), option])];
    }
    case 'date':
    case 'text':
      throw new Error(`${question.id} is no fact`);
  }
}

const urgency = (route: Route | null): number => (route === null ? 0 : routes.length - routes.indexOf(route));

describe('all rules together', () => {
  it('let nobody ride of whom nothing is known, and ask for everything', () => {
    const nothing = evaluate({});
    expect(nothing.findings.every(({ result }) => result === 'cannot_tell')).toBe(true);
    expect(nothing.permission).toEqual({ level: 'none', barred: activities });
    const siteQuestions = health.filter(({ perSite }) => perSite).map(({ id }) => id);
    // Behind "unless" a gap does not leave a rule open: it counts as the worse.
    const behindUnless = ['guardian_agrees', 'calf_girth_difference_mm'];
    const closed = [...siteQuestions, ...behindUnless];
    const read = [...new Set(rules.flatMap(factsOfRule))].filter((id) => !closed.includes(id));
    expect([...nothing.openFacts].sort()).toEqual(read.sort());
  });

  it('never lower the route or allow more when an answer turns to the worse', () => {
    fc.assert(
      fc.property(turnedWorse, ({ facts, was, worse }) => {
        const before = evaluate(facts);
        const after = evaluate(worse);
        expect(urgency(after.worstRoute)).toBeGreaterThanOrEqual(urgency(before.worstRoute));
        if (was !== undefined) {
          expect(after.permission.barred).toEqual(expect.arrayContaining([...before.permission.barred]));
        }
      }),
      { numRuns: 500 },
    );
  });

  it('call clear only what no further answer could raise', () => {
    fc.assert(
      fc.property(someFacts, allFacts, (facts, rest) => {
        const clear = evaluate(facts).findings.filter(({ result }) => result === 'clear');
        const completed = evaluate({ ...rest, ...facts });
        for (const { ruleId } of clear) {
          expect(completed.findings.find((finding) => finding.ruleId === ruleId)?.result).toBe('clear');
        }
      }),
      { numRuns: 200 },
    );
  });

  it('leave nothing open once all is answered but what was answered with don’t know', () => {
    fc.assert(
      fc.property(allFacts, (facts) => {
        for (const fact of evaluate(facts).openFacts) expect(facts[fact]).toBe('unknown');
      }),
      { numRuns: 500 },
    );
  });

  it('are settled by answers to what they say is open', () => {
    fc.assert(
      fc.property(someFacts, allFacts, (facts, rest) => {
        for (const finding of evaluate(facts).findings) {
          if (finding.result === 'cannot_tell') expect(finding.openFacts.length).toBeGreaterThan(0);
          else expect(finding.openFacts).toEqual([]);
        }
        // Answer what is open until nothing is: each round settles something.
        let now = facts;
        for (let round = 0; round < 200; round += 1) {
          const open = evaluate(now).openFacts.filter((fact) => now[fact] === undefined);
          if (open.length === 0) return;
          now = { ...now, ...Object.fromEntries(open.map((fact) => [fact, rest[fact]])) };
        }
        throw new Error('still open after 200 rounds');
      }),
      { numRuns: 50 },
    );
  });

  it('do not mind the order of the answers', () => {
    fc.assert(
      fc.property(someFacts, (facts) => {
        const turned: Facts = Object.fromEntries(Object.entries(facts).reverse());
        expect(evaluate(turned)).toEqual(evaluate(facts));
      }),
    );
  });

  it('tell what is raised anew from what stood before', () => {
    const before: Facts = { coughed_blood: 'no', calf_snapped: 'yes' };
    const { findings } = evaluate({ ...before, coughed_blood: 'yes' }, before);
    const unchanged = (id: string) => findings.find(({ ruleId }) => ruleId === id)?.unchanged;
    expect(unchanged('calf-snapped')).toBe(true);
    expect(unchanged('coughed-blood')).toBe(false);
    expect(evaluate(before).findings.some((finding) => finding.unchanged)).toBe(false);
  });
});

import { describe, expect, it } from '@jest/globals';
import { readdirSync } from 'node:fs';
import { join } from 'node:path';

import { evaluateRules, factsOfRule } from './evaluate.js';
import type { Facts } from './facts.js';
import type { Finding } from './finding.js';
import { questionSets } from './questions/index.js';
import { activities, type Rule } from './rule.js';
import { rules } from './rule-set.js';
import { fixtures } from './testing/fixtures/index.js';
import { mutantsOf } from './testing/mutants.js';

const judged = (rule: Rule, facts: Facts): Finding => {
  const [finding] = evaluateRules([rule], 'test', facts).findings;
  if (!finding) throw new Error(`${rule.id} was not judged`);
  return finding;
};

const fixtureOf = (id: string) => {
  const own = fixtures[id];
  if (!own) throw new Error(`${id} has no fixtures`);
  return own;
};

/** The fixtures a rule does not fulfil. */
const failuresOf = (rule: Rule): string[] => {
  const { route, fit, raised, clear, cannotTell } = fixtureOf(rule.id);
  const barred = fit === 'none' ? [...activities] : fit === 'full' ? [] : [...fit];
  return [
    ...(rule.route === route ? [] : [`route ${rule.route}`]),
    ...(rule.permission.level === 'none' || fit !== 'none' ? [] : ['permission']),
    ...(JSON.stringify([...rule.permission.barred].sort()) === JSON.stringify(barred.sort())
      ? []
      : ['barred']),
    ...Object.entries({ raised, clear, cannot_tell: cannotTell }).flatMap(([result, answers]) =>
      answers
        .filter((facts) => judged(rule, facts).result !== result)
        .map((facts) => `${result}: ${JSON.stringify(facts)}`),
    ),
  ];
};

describe('every rule', () => {
  it('has a file of its name, and every file is in the set', () => {
    const files = readdirSync(join(import.meta.dirname, 'rules')).map((name) => name.replace(/\.ts$/, ''));
    expect(rules.map(({ id }) => id).sort()).toEqual(files.sort());
    expect(Object.keys(fixtures).sort()).toEqual(files.sort());
  });

  it.each(rules.map((rule) => [rule.id, rule] as const))(
    '%s routes, permits and judges as its fixtures say',
    (id, rule) => {
      const { raised, clear, cannotTell } = fixtureOf(id);
      expect([raised.length, clear.length, cannotTell.length].every((count) => count > 0)).toBe(true);
      expect(failuresOf(rule)).toEqual([]);
    },
  );

  it.each(rules.map((rule) => [rule.id, rule] as const))(
    '%s tells what it rests on: with those answers alone it is judged the same',
    (id, rule) => {
      const { raised, clear } = fixtureOf(id);
      for (const facts of [...raised, ...clear]) {
        const { because, result } = judged(rule, facts);
        const alone = Object.fromEntries(because.map(({ fact, answer }) => [fact, answer]));
        expect(judged(rule, alone).result).toBe(result);
      }
    },
  );

  it('speaks of nothing as found, and reassures nobody', () => {
    const diagnosisOrComfort =
      /\b(thrombosis|claudication|endofibrosis|cauda equina|neuropathy|stroke|fracture|arthritis|infarct|harmless|nothing to worry|all clear|safe|probably|unlikely|low risk)\b/i;
    for (const { messageForClient } of rules) expect(messageForClient).not.toMatch(diagnosisOrComfort);
  });

  it('of an emergency sends the client to emergency care', () => {
    for (const { route, messageForClient } of rules) {
      if (route === 'emergency_now') expect(messageForClient).toMatch(/emergency number/);
      if (route === 'same_day_medical') expect(messageForClient).toMatch(/today/);
    }
  });

  it('and every question belong together: what is asked is read, what is read is asked', () => {
    const questions = questionSets.flatMap((set) => set.questions.filter(({ context }) => !context));
    const asked = new Set(questions.map(({ id }) => id));
    // These two say only what else is asked.
    const branching = ['anything_new', 'new_about'];
    const read = new Set(rules.flatMap(factsOfRule));
    expect([...asked].filter((id) => !branching.includes(id)).sort()).toEqual([...read].sort());
  });
});

describe('mutation of the rules', () => {
  it('no rule with one thing wrong fulfils its fixtures', () => {
    const mutants = rules.flatMap((rule) =>
      mutantsOf(rule.raisedWhen).map(({ what, condition }) => ({
        what: `${rule.id}: ${what}`,
        rule: { ...rule, raisedWhen: condition },
      })),
    );
    const survivors = mutants.filter(({ rule }) => failuresOf(rule).length === 0).map(({ what }) => what);
    expect(survivors).toEqual([]);
    expect(mutants.length).toBeGreaterThan(rules.length * 5);
  });
});

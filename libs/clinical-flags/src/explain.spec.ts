import { describe, expect, it } from '@jest/globals';

import { conditionInWords } from './condition-in-words.js';
import { explain, openQuestions } from './explain.js';
import { factsFrom, riderIntake } from './questions/index.js';
import { evaluate } from './rule-set.js';

const screened = (given: Record<string, unknown>) => evaluate(factsFrom(riderIntake, given));
const findingOf = (given: Record<string, unknown>, id: string) => {
  const finding = screened(given).findings.find(({ ruleId }) => ruleId === id);
  if (!finding) throw new Error(`no rule ${id}`);
  return finding;
};

describe('an explanation', () => {
  it('names the answers that led to a finding, and no others', () => {
    const given = {
      back_pain: 'yes',
      bladder_or_bowel_change: 'yes',
      sexual_change: 'no',
      saddle_numb: 'no',
    };
    const led = explain(riderIntake, findingOf(given, 'back-pain-with-cord-signs'));
    expect(led.map(({ key, answer }) => [key, answer])).toEqual([
      ['back_pain', 'yes'],
      ['bladder_or_bowel_change', 'yes'],
    ]);
    expect(led[0]?.question.text).toMatch(/pain in your back/);
  });

  it('names the body site', () => {
    const given = {
      complaint_sites: ['left_hip', 'neck'],
      'complaint_quality@left_hip': ['pain'],
      'complaint_worst@left_hip': 8,
      'complaint_quality@neck': ['tingling'],
    };
    const led = explain(riderIntake, findingOf(given, 'severe-or-resting-pain'));
    expect(led.map(({ key, site }) => [key, site?.label ?? null])).toEqual([
      ['complaint_sites', null],
      ['complaint_quality@left_hip', 'Left hip'],
      ['complaint_worst@left_hip', 'Left hip'],
    ]);
  });
});

describe('open questions', () => {
  it('are those that can be asked now', () => {
    const first = openQuestions(riderIntake, {}, screened({}));
    expect(first.map(({ key }) => key)).toContain('chest_pain');
    expect(first.map(({ key }) => key)).not.toContain('chest_pain_hours_ago');
    const given = { chest_pain: 'yes' };
    expect(openQuestions(riderIntake, given, screened(given)).map(({ key }) => key)).toContain(
      'chest_pain_hours_ago',
    );
  });
});

describe('a condition in words', () => {
  it.each([
    [{ all: [{ yes: 'saddle_numb' }, { no: 'back_pain' }] }, 'saddle numb: yes and back pain: no'],
    [
      {
        any: [
          { fact: 'age_years', atLeast: 50 },
          { fact: 'age_years', below: 18 },
        ],
      },
      'age years ≥ 50 or age years < 18',
    ],
    [{ unless: { fact: 'chest_pain_hours_ago', above: 12 } }, 'unless clearly chest pain hours ago > 12'],
    [{ fact: 'allergies', anyOf: ['rubber', 'nickel'] }, 'allergies has rubber or nickel'],
    [
      { someSite: { fact: 'complaint_when', onlyOf: ['riding'] }, at: ['thigh_front'] },
      'at one site of thigh front: complaint when has only riding',
    ],
    [
      { someSite: { all: [{ yes: 'complaint_rises' }, { fact: 'complaint_worst', atLeast: 7 }] } },
      'at some body site: (complaint rises: yes and complaint worst ≥ 7)',
    ],
  ] as const)('%j', (condition, words) => {
    expect(conditionInWords(condition)).toBe(words);
  });
});

import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import {
  rearwardCleatRules,
  rearwardCleatSuitability,
  suitabilityQuestions,
  type SuitabilityAnswers,
  type SuitabilityQuestion,
} from '../index.js';

const questions = Object.keys(suitabilityQuestions) as SuitabilityQuestion[];

const all = (answer: boolean | null): SuitabilityAnswers =>
  Object.fromEntries(questions.map((question) => [question, answer])) as unknown as SuitabilityAnswers;

const codes = (answers: SuitabilityAnswers): string[] =>
  rearwardCleatSuitability(answers).cautions.map(({ code }) => code);

const result = (answers: SuitabilityAnswers, id: string): string | undefined =>
  rearwardCleatSuitability(answers).findings.find((finding) => finding.id === id)?.result;

describe('rearwardCleatSuitability', () => {
  it.each(rearwardCleatRules.map(({ id }) => id))('%s: applies, does not apply, cannot tell', (id) => {
    expect(result(all(true), id)).toBe('applies');
    expect(result(all(false), id)).toBe('does-not-apply');
    expect(result(all(null), id)).toBe('cannot-tell');
  });

  it('never turns a missing answer into one that speaks', () => {
    fc.assert(
      fc.property(
        fc.tuple(...questions.map(() => fc.constantFrom(true, false, null))),
        fc.nat(questions.length - 1),
        (values, dropped) => {
          const answers = Object.fromEntries(
            questions.map((question, i) => [question, i === dropped ? null : values[i]]),
          ) as unknown as SuitabilityAnswers;
          const question = questions[dropped] as SuitabilityQuestion;
          for (const finding of rearwardCleatSuitability(answers).findings) {
            if (finding.when.includes(question)) expect(finding.result).not.toBe('applies');
            expect(finding.open.length > 0).toBe(finding.result === 'cannot-tell');
          }
        },
      ),
    );
  });

  it('wants persistent numbness screened first, also when nobody asked', () => {
    expect(codes(all(null))).toContain('screen-first');
    expect(codes({ ...all(false), forefootNumbnessPersists: true })).toContain('screen-first');
    expect(codes(all(true))).not.toContain('screen-first');
    expect(codes(all(false))).not.toContain('screen-first');
    expect(result({ ...all(false), forefootNumbnessPersists: true }, 'forefoot-numbness')).toBe(
      'does-not-apply',
    );
  });

  it('speaks for and against without a sum', () => {
    const findings = rearwardCleatSuitability(all(true)).findings;
    expect(new Set(findings.map(({ effect }) => effect))).toEqual(new Set(['serves', 'costs', 'neither']));
    expect(Object.keys(rearwardCleatSuitability(all(true))).sort()).toEqual([
      'cautions',
      'findings',
      'formulaVersion',
    ]);
    expect(codes(all(true))).toEqual(['no-verdict']);
  });

  it('refuses an answer that is none', () => {
    const wrong = { ...all(true), timeTrial: 'yes' } as unknown as SuitabilityAnswers;
    expect(() => rearwardCleatSuitability(wrong)).toThrow(expect.objectContaining({ field: 'timeTrial' }));
  });

  it('names a source and its evidence for every rule, and has no two of one name', () => {
    for (const { source, evidence } of rearwardCleatRules) {
      expect(source).not.toBe('');
      if (evidence === 'common-practice') expect(source).toBe('common practice, no source');
    }
    expect(new Set(rearwardCleatRules.map(({ id }) => id)).size).toBe(rearwardCleatRules.length);
  });
});

import { describe, expect, it } from '@jest/globals';
import { reviewedSession } from '../../../../../tests/helpers/reviewed-session.js';
import { powerAnswer } from './power-answer.js';
import type { ReviewedSession } from './review.queries.js';

const session = (before: number | null, after: number | null): ReviewedSession =>
  reviewedSession({
    answerState: after === null ? 'asked' : 'answered',
    power20MinBeforeW: before,
    power20MinAfterW: after,
  });
/** Riders of 200 W who changed by so many watts. */
const changed = (...watts: number[]): ReviewedSession[] => watts.map((change) => session(200, 200 + change));
const ask = (sessions: ReviewedSession[], powerMarginPercent = 2) =>
  powerAnswer(sessions, { groupInWords: 'riders', powerMarginPercent });

describe('powerAnswer', () => {
  it('says no where the bound stays above the margin', () => {
    // Mean 0, standard deviation √2: t 2.571 · √2 / √6 for the interval, 2.015 for the bound; 2 W are 1 %.
    expect(ask(changed(-2, -1, 0, 0, 1, 2))).toMatchObject({
      verdict: 'not worse',
      n: 6,
      missing: 0,
      answer:
        'No: in 6 riders it changed by 0.0 % on average (95 % interval −0.7 % to +0.7 %); a loss of more than 2 % is ruled out (with 95 % confidence no lower than −0.6 %). Nobody is missing. Nobody was randomised.',
    });
  });

  it('adds that a loss within the margin is likely', () => {
    expect(ask(changed(-3, -2, -2, -2, -2, -1)).answer).toContain('ruled out');
    expect(ask(changed(-3, -2, -2, -2, -2, -1)).answer).toContain('but a smaller loss is likely');
  });

  it('says yes where even the best bound lies beyond it', () => {
    const { verdict, answer } = ask(changed(-10, -9, -8, -8, -7, -6));
    expect([verdict, answer.slice(0, 4)]).toEqual(['worse', 'Yes:']);
  });

  it.each([
    ['between the bounds', changed(-30, -10, 0, 5, 10, 25), 'not shown', 'neither shown nor ruled out'],
    ['of five', changed(1, 1, 1, 1, 2), 'cannot tell', '5 are too few'],
    ['where all changed alike', changed(1, 1, 1, 1, 1, 1), 'cannot tell', 'the spread is unknown'],
    ['of nobody', [session(200, null)], 'cannot tell', 'of 1 riders none has a value'],
  ])('cannot say it %s', (_, sessions, verdict, words) => {
    const found = ask(sessions);
    expect(found.verdict).toBe(verdict);
    expect(found.answer).toMatch(/^It cannot be said: /);
    expect(found.answer).toContain(words);
  });

  it('counts who has no value before and after', () => {
    const { answer, missing } = ask([...changed(-2, -1, 0, 0, 1, 2), session(null, 210), session(205, null)]);
    expect(missing).toBe(2);
    expect(answer).toContain('2 of 8 have no value before and after.');
  });
});

import { describe, expect, it } from '@jest/globals';
import { bodySites, type AskedQuestion, type Question } from '@studio/clinical-flags';
import { asSent, noneValue, readForm, unknownBox } from './read-form.js';
import { questionField } from './question-field.js';

const asked = (question: Question): AskedQuestion => ({ ...question, key: question.id, site: null });
const options = [
  { id: 'one', label: 'One' },
  { id: 'two', label: 'Two' },
];
const yesNo = asked({ kind: 'yes_no', id: 'q', text: 'Is it?' });
const oneOf = asked({ kind: 'one_of', id: 'q', text: 'Which?', options });
const several = asked({ kind: 'several_of', id: 'q', text: 'Which?', options });
const sites = asked({ kind: 'body_sites', id: 'q', text: 'Where?', sites: bodySites });
const hours = { kind: 'number', id: 'q', text: 'How many?', min: 0, max: 10, unit: 'hours' } as const;
const number = asked(hours);
const decimal = asked({ ...hours, decimals: true });
const date = asked({ kind: 'date', id: 'q', text: 'When?' });
const text = asked({ kind: 'text', id: 'q', text: 'What?', maxLength: 5 });
const optional = asked({ kind: 'text', id: 'q', text: 'What?', maxLength: 5, context: true });

describe('an answer of a form', () => {
  it.each<[string, AskedQuestion, unknown, unknown]>([
    ['a choice', yesNo, 'no', 'no'],
    ['don’t know', yesNo, 'unknown', 'unknown'],
    ['an option', oneOf, 'two', 'two'],
    ['one of a list', several, 'two', ['two']],
    ['all of a list', several, ['one', 'two'], ['one', 'two']],
    ['none of a list', several, noneValue, []],
    ['places', sites, ['left_calf', 'neck'], ['left_calf', 'neck']],
    ['nowhere', sites, noneValue, []],
    ['a number', number, ' 7 ', 7],
    ['a decimal comma', decimal, '1,5', 1.5],
    ['a day', date, '2026-02-28', '2026-02-28'],
    ['words', text, ' so ', 'so'],
    ['nothing, where nothing is wanted', optional, '', undefined],
    ['nothing sent at all', optional, undefined, undefined],
  ])('is read: %s', (_, question, sent, answer) => {
    expect(readForm([question], { q: sent })).toEqual({ answers: { q: answer }, errors: [] });
  });

  it('is “don’t know” by the box beside a field', () => {
    expect(readForm([number], { q: '', [unknownBox('q')]: '1' }).answers).toEqual({ q: 'unknown' });
  });

  it.each<[string, AskedQuestion, Record<string, unknown>, RegExp]>([
    ['nothing', yesNo, {}, /Choose an answer/],
    ['nothing of a list', several, {}, /None of these/],
    ['something not offered', oneOf, { q: 'three' }, /Choose from/],
    ['an object', oneOf, { q: { a: 1 } }, /Choose an answer/],
    ['none and some', several, { q: [noneValue, 'one'] }, /not both/],
    ['some and don’t know', several, { q: ['one', 'unknown'] }, /not both/],
    ['a number and don’t know', number, { q: '3', [unknownBox('q')]: '1' }, /not both/],
    ['no number', number, { q: 'three' }, /whole number from 0 to 10/],
    ['a fraction where whole ones count', number, { q: '1.5' }, /whole number/],
    ['too many', number, { q: '11' }, /from 0 to 10/],
    ['a day no calendar has', date, { q: '2026-02-30' }, /calendar/],
    ['too many words', text, { q: 'longer' }, /at most 5/],
  ])('is refused, and the others are kept: %s', (_, question, form, message) => {
    const beside = asked({ kind: 'yes_no', id: 'beside', text: 'Is it?' });
    const read = readForm([question, beside], { ...form, beside: 'yes' });
    expect(read.answers).toEqual({ beside: 'yes' });
    expect(read.errors).toEqual([{ key: 'q', message: expect.stringMatching(message) }]);
  });
});

describe('a field', () => {
  it.each([yesNo, oneOf, several, sites, number, decimal, date, text])(
    'of kind $kind shows again what was sent',
    (question) => {
      const values = {
        yes_no: 'no',
        one_of: 'two',
        several_of: 'two',
        body_sites: 'neck',
        number: '99',
        date: '2026-02-28',
        text: '<b>',
      };
      const sent = values[question.kind];
      const shown = questionField(question, {
        answer: asSent(question, { q: sent }),
        error: 'That is wrong',
      }).text;
      expect(shown).toContain('id="q-q-error"');
      expect(shown).toMatch(/aria-describedby="[^"]*q-q-error"/);
      if (['number', 'date'].includes(question.kind)) expect(shown).toContain(`value="${sent}"`);
      else if (question.kind === 'text') expect(shown).toContain('&lt;b&gt;</textarea>');
      else expect(shown).toMatch(new RegExp(`value="${sent}"\\s+checked`));
      expect(shown.match(/checked/g) ?? []).toHaveLength(
        ['number', 'date', 'text'].includes(question.kind) ? 0 : 1,
      );
    },
  );
});

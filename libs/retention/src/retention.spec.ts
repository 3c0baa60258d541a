import { describe, expect, it } from '@jest/globals';
import { answerBy, auditKeptFrom, countries, keepUntil } from './index.js';

describe('a health record is kept', () => {
  it.each([
    // CSP: 8 years in England, 6 in Scotland; Autoriteit Persoonsgegevens: 20 in the Netherlands.
    ['GB-ENG', '2026-03-02', null, '2034-03-02'],
    ['GB-SCT', '2026-03-02', null, '2032-03-02'],
    ['NL', '2026-03-02', null, '2046-03-02'],
    ['GB-ENG', '2024-02-29', null, '2032-02-29'],
    ['GB-SCT', '2024-02-29', '1984-01-01', '2030-02-28'],
    // Of a child until its 25th birthday, where that is later: England from memory, Australia second-hand.
    ['GB-ENG', '2026-03-02', '2012-06-01', '2037-06-01'],
    ['GB-ENG', '2026-03-02', '2008-03-03', '2034-03-02'],
    ['AU', '2026-03-02', '2016-06-01', '2041-06-01'],
  ] as const)('in %s after an entry of %s, born %s, until %s', (country, last, bornOn, until) => {
    expect(keepUntil(countries[country].healthRecord, last, bornOn)).toBe(until);
  });

  it('and papers of account from the end of their year', () => {
    expect(keepUntil(countries.NL.accounts, '2026-03-02', null)).toBe('2034-01-01');
  });
});

describe('a request is answered', () => {
  it.each([
    ['2026-03-02', false, '2026-04-02'],
    ['2026-01-31', false, '2026-02-28'],
    ['2026-03-02', true, '2026-06-02'],
  ])('that came on %s (extended: %s) by %s', (receivedOn, extended, due) => {
    expect(answerBy(receivedOn, extended)).toBe(due);
  });
});

it.each([
  ['2026-03-02', '2020-03-02'],
  ['2028-02-29', '2022-02-28'],
])('the audit log on %s is kept from %s', (today, from) => {
  expect(auditKeptFrom(today)).toBe(from);
});

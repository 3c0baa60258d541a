import { describe, expect, it } from '@jest/globals';
import { keptParts } from './kept-parts.js';

const facts = {
  ...{ country: 'GB-ENG', boundByHealthLaw: true, today: '2026-05-01' },
  ...{ lastHealthEntryOn: '2026-03-02', lastAccountOn: '2026-03-02', bornOn: '1984-02-29' },
};

describe('of a person who is to be erased', () => {
  it('the law keeps the health record and the accounts, and nothing else', () => {
    expect(keptParts(facts)).toEqual([
      { category: 'contact', eraseOn: '2026-05-01', keptByLaw: null },
      { category: 'health_record', eraseOn: '2034-03-02', keptByLaw: expect.stringContaining('Records') },
      { category: 'accounts', eraseOn: '2033-01-01', keptByLaw: expect.stringContaining('tax') },
    ]);
  });

  it('nothing is kept that is not there, or that no law binds the studio to', () => {
    const free = { ...facts, boundByHealthLaw: false, lastAccountOn: null };
    expect(keptParts(free).map(({ eraseOn }) => eraseOn)).toEqual(['2026-05-01', '2026-05-01', '2026-05-01']);
  });
});

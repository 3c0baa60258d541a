import { describe, expect, it } from '@jest/globals';
import { partsToChange, type PartsOfBike } from '../index.js';

const now: PartsOfBike = {
  stem: 'on it',
  spacersMm: 20,
  bars: 'on it',
  seatpost: 'on it',
  crankLengthMm: 172.5,
};
const build = { stemId: 'on it', spacersMm: 20, barId: 'on it', seatpostId: 'on it' };

describe('partsToChange', () => {
  it('is nothing for a bike that is built like that', () => {
    expect(partsToChange(now, build, 172.5)).toEqual([]);
  });

  it('names what differs, with what is on it and what is needed', () => {
    expect(partsToChange(now, { ...build, stemId: '90 mm', spacersMm: 10 }, 165)).toEqual([
      { part: 'stem', now: 'on it', needed: '90 mm' },
      { part: 'spacers', now: 20, needed: 10 },
      { part: 'cranks', now: 172.5, needed: 165 },
    ]);
  });

  it('counts a part that is not known among them, and without a build looks at the cranks alone', () => {
    expect(partsToChange({ ...now, bars: null }, build, 172.5)).toEqual([
      { part: 'bars', now: null, needed: 'on it' },
    ]);
    expect(partsToChange({ ...now, stem: null }, null, 170)).toEqual([
      { part: 'cranks', now: 172.5, needed: 170 },
    ]);
  });
});

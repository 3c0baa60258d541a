import { describe, expect, it } from '@jest/globals';
import { dictionary } from '@zxcvbn-ts/language-common';
import { hashPassword, passwordMatches, requireGoodPassword } from './passwords.js';

const own = ['ines@harbour-lane.example', 'Ines Okafor', 'harbour-lane'];

describe('a password', () => {
  it.each(['salt wind over the harbour', '日本語のパスワードは長いほうがよい', 'four words and a hat'])(
    'may be %s',
    (text) => {
      expect(() => {
        requireGoodPassword(text, own);
      }).not.toThrow();
    },
  );

  it.each([
    ['fourteen chars', 'at least 15'],
    ['passwordpassword', 'guessed first'],
    ['QwertyQwertyQwerty', 'guessed first'],
    ['111111111111111', 'too few'],
    ['abababababababababab', 'too few'],
    ['harbour-lane-Ines Okafor', 'names that belong'],
    ['ines@harbour-lane.example1', 'names that belong'],
  ])('may not be %s', (text, why) => {
    let refused: unknown;
    try {
      requireGoodPassword(text, own);
    } catch (error) {
      refused = error;
    }
    expect(refused).toMatchObject({
      extra: { errors: [{ field: 'password', message: expect.stringContaining(why) }] },
    });
  });

  it('is none of the common ones, long as they may be', () => {
    const long = dictionary['passwords-common'].filter(({ length }) => length >= 15);
    expect(long.length).toBeGreaterThan(10);
    for (const password of long)
      expect(() => {
        requireGoodPassword(password, []);
      }).toThrow();
  });

  it('is the same on a keyboard that composes its letters otherwise', async () => {
    const composed = 'café au bord du canal';
    expect(await passwordMatches(await hashPassword(composed), composed.normalize('NFD'))).toBe(true);
    expect(await passwordMatches(await hashPassword(composed), 'cafe au bord du canal')).toBe(false);
  });
});

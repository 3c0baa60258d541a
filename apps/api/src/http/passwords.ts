import { hash, verify } from '@node-rs/argon2';
import { dictionary } from '@zxcvbn-ts/language-common';
import { InvalidRequest } from './problem.js';

/** NIST SP 800-63B-4, 3.1.1.2: fifteen characters where a password may stand alone, no rule about which. */
export const shortestPassword = 15;
export const longestPassword = 200;

const common = new Set(dictionary['passwords-common'].map((password) => password.toLowerCase()));

/**
 * A password as it is hashed: Unicode composed one way (NFKC), since keyboards differ (NIST SP 800-63B-4, 3.1.1.2).
 */
const normal = (password: string): string => password.normalize('NFKC');

/**
 * Refuses what would be guessed first: passwords known from breaches, such a one said several times, and the person's or
 * studio's own name (NIST SP 800-63B-4, 3.1.1.2: a blocklist of common, compromised and context-specific values).
 *
 * @param own words an attacker would try for this person, such as names and the address
 * @throws InvalidRequest naming `field`
 */
export function requireGoodPassword(password: string, own: readonly string[], field = 'password'): void {
  const refuse = (message: string): never => {
    throw new InvalidRequest([{ field, message }]);
  };
  const text = normal(password).toLowerCase();
  if ([...text].length < shortestPassword)
    refuse(`must have at least ${String(shortestPassword)} characters`);
  if (common.has(text) || common.has(repeatedPart(text))) refuse('is among those that are guessed first');
  if (new Set(text).size < 5) refuse('is made of too few different characters');
  let rest = text;
  for (const word of own.map((one) => normal(one).toLowerCase()).filter((one) => one.length >= 4)) {
    rest = rest.replaceAll(word, '');
  }
  if ([...rest].length < 8) refuse('is made of names that belong to this account');
}

/** `abcabcabc` → `abc`; a text that repeats nothing is its own part. */
function repeatedPart(text: string): string {
  const period = (text + text).indexOf(text, 1);
  return text.slice(0, period);
}

export const hashPassword = (password: string): Promise<string> => hash(normal(password));

export const passwordMatches = (passwordHash: string, password: string): Promise<boolean> =>
  verify(passwordHash, normal(password));

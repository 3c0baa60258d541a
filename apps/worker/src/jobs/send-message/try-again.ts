const second = 1_000;
const minute = 60 * second;
const hour = 60 * minute;

/**
 * How long to wait after each refused try. RFC 5321, 4.5.4.1 asks a server to keep on for four to five days; we hand
 * over to such a server, and only wait out that it is away: about two days in all.
 */
const waits = [
  ...[5 * second, 30 * second, 2 * minute, 10 * minute, 30 * minute],
  ...[2 * hour, 6 * hour, 12 * hour, 24 * hour],
];

/**
 * The wait in milliseconds before the next try, spread by a fifth to either side, so that what was refused together
 * does not come back together; null when the tries are used up.
 *
 * @param attempts made so far, 1 or more
 */
export function waitBeforeNextTry(attempts: number, random = Math.random()): number | null {
  const wait = waits[attempts - 1];
  return wait === undefined ? null : Math.round(wait * (0.8 + 0.4 * random));
}

/**
 * The level each of several intervals needs so that, with the chance of the joint level, all of them cover the truth.
 *
 * @param questions intervals shown together. 1 or more
 * @param jointLevel 0–1, both excluded
 * @throws RangeError when either is out of range
 * @source Bonferroni's inequality
 * @example jointIntervalLevel(5, 0.95); // 0.99
 */
export function jointIntervalLevel(questions: number, jointLevel: number): number {
  if (!Number.isInteger(questions) || questions < 1) throw new RangeError('there must be a question');
  if (!(jointLevel > 0 && jointLevel < 1)) throw new RangeError('level must lie between 0 and 1');
  return 1 - (1 - jointLevel) / questions;
}

import { FitMathError } from '../errors.js';
import { requireRange } from '../require-range.js';

/** How a shoe's size is marked. Adults' sizes; the two of the United States count from different places. */
export const sizeSystems = ['mondopoint', 'centimetre', 'eu', 'uk', 'us_men', 'us_women'] as const;
export type SizeSystem = (typeof sizeSystems)[number];

interface Scale {
  /** Length of one size. */
  readonly stepMm: number;
  /** Foot length that size 0 would be for. */
  readonly zeroMm: number;
  /** In steps of the marking: halves, or of 5. */
  readonly markedBy: number;
}

const barleycornMm = 25.4 / 3;
const parisPointMm = 20 / 3;
/** A last is taken to be two sizes longer than the foot it is for. */
const lastLongerBySizes = 2;

const scales: Readonly<Record<SizeSystem, Scale>> = {
  mondopoint: { stepMm: 1, zeroMm: 0, markedBy: 5 },
  centimetre: { stepMm: 10, zeroMm: 0, markedBy: 0.5 },
  eu: { stepMm: parisPointMm, zeroMm: -lastLongerBySizes * parisPointMm, markedBy: 0.5 },
  // Size 0 of grown-ups is a last of 25 barleycorns.
  uk: { stepMm: barleycornMm, zeroMm: (25 - lastLongerBySizes) * barleycornMm, markedBy: 0.5 },
  us_men: { stepMm: barleycornMm, zeroMm: (24 - lastLongerBySizes) * barleycornMm, markedBy: 0.5 },
  us_women: { stepMm: barleycornMm, zeroMm: (23 - lastLongerBySizes) * barleycornMm, markedBy: 0.5 },
};

const shortestMm = 180;
const longestMm = 340;

export interface SizeInSystem {
  readonly system: SizeSystem;
  /** As the scale runs. */
  readonly exact: number;
  /** The nearest that is marked on shoes. */
  readonly marked: number;
}

/**
 * The length of the foot a marked size is for, the common ground of all systems (ISO 9407). Makers differ by about a
 * size: measure the foot, and the shoe outside.
 *
 * @param size as marked; adults' sizes
 * @returns mm
 * @throws FitMathError for a size of no foot from 180 to 340 mm
 * @source steps and foot length as the common ground: ISO/TS 19407:2015, by way of its published summary; zero points and
 *   the last two sizes longer than the foot: by way of secondary listings
 * @check outside/shoe-sizes: a published chart of 18 sizes; an open library in 19 lengths; the steps of the standard
 * @tolerance 0.3 mm; exact; exact
 * @example footLengthOfSize('eu', 43); // 273.3…
 */
export function footLengthOfSize(system: SizeSystem, size: number): number {
  const { stepMm, zeroMm } = scales[system];
  const lengthMm = zeroMm + size * stepMm;
  if (!(lengthMm >= shortestMm && lengthMm <= longestMm)) {
    const [least, greatest] = [shortestMm, longestMm].map((mm) => ((mm - zeroMm) / stepMm).toFixed(1));
    throw new FitMathError('input.out-of-range', 'size', `from ${least} to ${greatest} in this system`);
  }
  return lengthMm;
}

/**
 * Every system's size for a foot.
 *
 * @param footLengthMm heel to the longest toe, standing. 180–340
 * @throws FitMathError naming the length outside its range
 * @source as `footLengthOfSize`
 * @check outside/shoe-sizes: as `footLengthOfSize`; src/shoe-sizes/shoe-sizes: there and back
 * @tolerance as `footLengthOfSize`; 1e-9
 * @example sizesOfFoot(265)[2].marked; // 42
 */
export function sizesOfFoot(footLengthMm: number): readonly SizeInSystem[] {
  requireRange('footLengthMm', footLengthMm, shortestMm, longestMm);
  return sizeSystems.map((system) => {
    const { stepMm, zeroMm, markedBy } = scales[system];
    const exact = (footLengthMm - zeroMm) / stepMm;
    // Half-way goes up, a third of an inch or of 20 mm notwithstanding.
    return { system, exact, marked: Math.round(exact / markedBy + 1e-9) * markedBy };
  });
}

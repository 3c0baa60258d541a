import { requireRange } from '../require-range.js';
import type { TransferBuild } from './transfer-position.js';

/** A part of a build by its id; spacers and cranks by their measure. Null: not known. */
export interface PartsOfBike {
  readonly stem: string | null;
  readonly spacersMm: number | null;
  readonly bars: string | null;
  readonly seatpost: string | null;
  readonly crankLengthMm: number;
}

export interface PartToChange {
  readonly part: 'stem' | 'spacers' | 'bars' | 'seatpost' | 'cranks';
  /** An id, or mm; null: not known what is on it. */
  readonly now: string | number | null;
  readonly needed: string | number;
}

/**
 * What of a bike has to be changed to come to a build; a part that is not known counts as one to change.
 *
 * @throws FitMathError for a crank outside 80–250 mm, or spacers outside 0–200 mm
 * @source common practice, no source
 * @check src/frames/parts-to-change: by hand
 * @tolerance exact
 * @example
 * partsToChange(
 *   { stem: 'on it', spacersMm: 20, bars: 'on it', seatpost: null, crankLengthMm: 172.5 },
 *   { stemId: 'on it', spacersMm: 10, barId: 'on it', seatpostId: 'straight' },
 *   172.5,
 * );
 * // [{ part: 'spacers', now: 20, needed: 10 }, { part: 'seatpost', now: null, needed: 'straight' }]
 */
export function partsToChange(
  now: PartsOfBike,
  build: Pick<TransferBuild, 'stemId' | 'spacersMm' | 'barId' | 'seatpostId'> | null,
  crankLengthMm: number,
): readonly PartToChange[] {
  requireRange('crankLengthMm', crankLengthMm, 80, 250);
  requireRange('now.crankLengthMm', now.crankLengthMm, 80, 250);
  if (now.spacersMm !== null) requireRange('now.spacersMm', now.spacersMm, 0, 200);
  if (build) requireRange('build.spacersMm', build.spacersMm, 0, 200);
  const parts: readonly PartToChange[] = [
    ...(build
      ? [
          { part: 'stem' as const, now: now.stem, needed: build.stemId },
          { part: 'spacers' as const, now: now.spacersMm, needed: build.spacersMm },
          { part: 'bars' as const, now: now.bars, needed: build.barId },
          { part: 'seatpost' as const, now: now.seatpost, needed: build.seatpostId },
        ]
      : []),
    { part: 'cranks', now: now.crankLengthMm, needed: crankLengthMm },
  ];
  return parts.filter((part) => part.now !== part.needed);
}

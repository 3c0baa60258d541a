import { radiansOf } from '../angles.js';
import type { Caution } from '../cautions.js';
import { FitMathError } from '../errors.js';
import { formulaVersion } from '../formula-version.js';
import type { Point } from '../leg-chain/ankle-position.js';
import { requireRange } from '../require-range.js';
import {
  requireBar,
  requireFrame,
  requireSaddle,
  requireSeatpost,
  requireStem,
  type Bar,
  type FrameGeometry,
  type RailedSaddle,
  type Seatpost,
  type Stem,
} from './bike-parts.js';
import {
  placeBarClamp,
  placeGrips,
  placeSaddle,
  requireContactPoints,
  type ContactPoints,
} from './contact-points.js';

/** What can be had for a frame. Every combination is tried. */
export interface PartRanges {
  readonly stems: readonly Stem[];
  /** Heights of spacers under the stem that the steerer allows. Each 0–100. */
  readonly spacersMm: readonly number[];
  readonly bars: readonly Bar[];
  readonly seatposts: readonly Seatpost[];
  readonly saddle: RailedSaddle;
}

export interface TransferInput {
  readonly wanted: ContactPoints;
  readonly frame: FrameGeometry;
  readonly parts: PartRanges;
  /** A build fits when it misses by no more than this on every axis. 0.1–50. */
  readonly toleranceMm: number;
  /** How many builds to answer with, nearest first. 1–100. */
  readonly listed: number;
}

/** Found minus wanted: positive = too far forward or too high. */
export interface Leftover {
  readonly saddleXMm: number;
  readonly saddleYMm: number;
  readonly upperGripXMm: number;
  readonly upperGripYMm: number;
  /** Null when no lower grip is wanted. */
  readonly lowerGripYMm: number | null;
}

export interface TransferBuild {
  readonly stemId: string;
  readonly spacersMm: number;
  readonly barId: string;
  readonly seatpostId: string;
  readonly clampAlongTubeMm: number;
  /** Saddle slid forward from the middle of its rails; negative = back. */
  readonly saddleForwardMm: number;
  readonly contactPoints: ContactPoints;
  readonly leftover: Leftover;
  /** The greatest leftover on any axis. */
  readonly greatestLeftoverMm: number;
  readonly fits: boolean;
}

export interface Transfer {
  readonly formulaVersion: string;
  readonly buildsSearched: number;
  /** Whether any build fits. */
  readonly fits: boolean;
  /** Least of the greatest leftover first, then least sum of squares, then in the order the parts were given. */
  readonly builds: readonly TransferBuild[];
  readonly cautions: readonly Caution[];
}

/** How far a part of a build is off: what builds are ranked by. */
interface Miss {
  readonly greatestMm: number;
  readonly squared: number;
}

interface Front extends Miss {
  readonly stem: Stem;
  readonly spacersMm: number;
  readonly bar: Bar;
  readonly clamp: Point;
}

interface Rear extends Miss {
  readonly seatpost: Seatpost;
  readonly clampAlongTubeMm: number;
  readonly saddleForwardMm: number;
  readonly saddle: Point;
}

const noneFits: Caution = {
  code: 'no-build-fits',
  text: 'None of these builds brings the position within the tolerance. The nearest are listed with what is left over.',
};
const greatestSearch = 2_000_000;

/**
 * The builds of a frame that come nearest to wanted contact points, with what is left over on each axis.
 *
 * The saddle's height is met first and its setback then by the rails (house rule: a rider notices height more); the
 * front end is whatever stem, spacers and bar give. Where a lower grip is wanted, bars without one are passed over.
 *
 * @throws FitMathError naming the measure outside its range, an empty list of parts, or a search of more than
 *   2 000 000 builds
 * @source house rule, exhaustive search over `contactPoints`
 * @check src/frames/frames: own bike leaves nothing over; a bare search finds no better
 * @tolerance 1e-9 mm
 * @example
 * transferPosition({
 *   wanted: { saddle: { xMm: -225, yMm: 730 }, upperGrip: { xMm: 555, yMm: 605 }, lowerGripYMm: null },
 *   frame: {
 *     stackMm: 560,
 *     reachMm: 385,
 *     headTubeAngleDeg: 73,
 *     seatTubeAngleDeg: 73.5,
 *     seatTubeAxisAheadMm: 0,
 *     clampAlongTubeMm: { least: 600, greatest: 760 },
 *     topCapMm: 8,
 *   },
 *   parts: {
 *     stems: [90, 100, 110].map((lengthMm) => ({ id: `${lengthMm}`, lengthMm, angleDeg: -6, clampHeightMm: 40 })),
 *     spacersMm: [0, 10, 20],
 *     bars: [{ id: 'drop', reachMm: 80, riseMm: 0, dropMm: 125 }],
 *     seatposts: [{ id: 'set back', setbackMm: 20 }],
 *     saddle: {
 *       lengthMm: 270,
 *       tipTo80MmWidthMm: 140,
 *       railToTopMm: 45,
 *       widthPointBehindRailMiddleMm: 15,
 *       railTravelMm: 18,
 *     },
 *   },
 *   toleranceMm: 5,
 *   listed: 1,
 * }).builds[0];
 * // { stemId: '100', spacersMm: 0, fits: true }
 */
export function transferPosition(input: TransferInput): Transfer {
  const { wanted, frame, parts, toleranceMm, listed } = input;
  requireContactPoints('wanted', wanted);
  requireFrame(frame);
  requireParts(parts);
  requireRange('toleranceMm', toleranceMm, 0.1, 50);
  requireRange('listed', listed, 1, 100);

  const fronts = frontEnds(input);
  const rears = parts.seatposts.map((seatpost) => rearEnd(input, seatpost));
  const builds = nearestPairs(fronts, rears, Math.floor(listed)).map(([front, rear]) =>
    described(front, rear, wanted, toleranceMm),
  );
  const fits = builds.some((build) => build.fits);
  return {
    formulaVersion,
    buildsSearched: fronts.length * rears.length,
    fits,
    builds,
    cautions: fits ? [] : [noneFits],
  };
}

function requireParts(parts: PartRanges): void {
  requireRange('parts.stems.length', parts.stems.length, 1, 10_000);
  requireRange('parts.spacersMm.length', parts.spacersMm.length, 1, 1000);
  requireRange('parts.bars.length', parts.bars.length, 1, 10_000);
  requireRange('parts.seatposts.length', parts.seatposts.length, 1, 1000);
  const searched = parts.stems.length * parts.spacersMm.length * parts.bars.length * parts.seatposts.length;
  requireRange('parts', searched, 1, greatestSearch);
  parts.stems.forEach((stem, index) => {
    requireStem(`parts.stems.${index}`, stem);
  });
  parts.spacersMm.forEach((spacersMm, index) => requireRange(`parts.spacersMm.${index}`, spacersMm, 0, 100));
  parts.bars.forEach((bar, index) => {
    requireBar(`parts.bars.${index}`, bar);
  });
  parts.seatposts.forEach((seatpost, index) => {
    requireSeatpost(`parts.seatposts.${index}`, seatpost);
  });
  requireSaddle('parts.saddle', parts.saddle);
}

function frontEnds({ wanted, frame, parts }: TransferInput): Front[] {
  const bars = wanted.lowerGripYMm === null ? parts.bars : parts.bars.filter(({ dropMm }) => dropMm !== null);
  if (bars.length === 0) {
    throw new FitMathError('target.not-reachable', 'parts.bars', 'a bar with a lower grip, as one is wanted');
  }
  const fronts: Front[] = [];
  for (const stem of parts.stems) {
    for (const spacersMm of parts.spacersMm) {
      const clamp = placeBarClamp(frame, frame.topCapMm + spacersMm + stem.clampHeightMm / 2, stem);
      for (const bar of bars) {
        const { upperGrip, lowerGripYMm } = placeGrips(clamp, bar);
        const x = upperGrip.xMm - wanted.upperGrip.xMm;
        const y = upperGrip.yMm - wanted.upperGrip.yMm;
        const lowerY = lowerGripLeftover(lowerGripYMm, wanted) ?? 0;
        fronts.push({
          stem,
          spacersMm,
          bar,
          clamp,
          greatestMm: Math.max(Math.abs(x), Math.abs(y), Math.abs(lowerY)),
          squared: x * x + y * y + lowerY * lowerY,
        });
      }
    }
  }
  return fronts;
}

function rearEnd({ wanted, frame, parts }: TransferInput, seatpost: Seatpost): Rear {
  const { saddle } = parts;
  const tube = radiansOf(frame.seatTubeAngleDeg);
  const clampAlongTubeMm = clamped(
    (wanted.saddle.yMm - saddle.railToTopMm + seatpost.setbackMm * Math.cos(tube)) / Math.sin(tube),
    frame.clampAlongTubeMm.least,
    frame.clampAlongTubeMm.greatest,
  );
  const centred = placeSaddle(frame, seatpost, saddle, clampAlongTubeMm, 0);
  const saddleForwardMm = clamped(wanted.saddle.xMm - centred.xMm, -saddle.railTravelMm, saddle.railTravelMm);
  const place = { xMm: centred.xMm + saddleForwardMm, yMm: centred.yMm };
  const x = place.xMm - wanted.saddle.xMm;
  const y = place.yMm - wanted.saddle.yMm;
  return {
    seatpost,
    clampAlongTubeMm,
    saddleForwardMm,
    saddle: place,
    greatestMm: Math.max(Math.abs(x), Math.abs(y)),
    squared: x * x + y * y,
  };
}

/** The best pairs of a front and a rear end, nearest first, kept in a short sorted list while all are tried. */
function nearestPairs(
  fronts: readonly Front[],
  rears: readonly Rear[],
  listed: number,
): (readonly [Front, Rear])[] {
  const kept: { readonly pair: readonly [Front, Rear]; readonly miss: Miss }[] = [];
  for (const front of fronts) {
    for (const rear of rears) {
      const miss = {
        greatestMm: Math.max(front.greatestMm, rear.greatestMm),
        squared: front.squared + rear.squared,
      };
      const last = kept.at(-1);
      if (kept.length === listed && last && !isNearer(miss, last.miss)) continue;
      const after = kept.findIndex((other) => isNearer(miss, other.miss));
      kept.splice(after === -1 ? kept.length : after, 0, { pair: [front, rear], miss });
      if (kept.length > listed) kept.pop();
    }
  }
  return kept.map(({ pair }) => pair);
}

function described(front: Front, rear: Rear, wanted: ContactPoints, toleranceMm: number): TransferBuild {
  const { upperGrip, lowerGripYMm } = placeGrips(front.clamp, front.bar);
  const greatestLeftoverMm = Math.max(front.greatestMm, rear.greatestMm);
  return {
    stemId: front.stem.id,
    spacersMm: front.spacersMm,
    barId: front.bar.id,
    seatpostId: rear.seatpost.id,
    clampAlongTubeMm: rear.clampAlongTubeMm,
    saddleForwardMm: rear.saddleForwardMm,
    contactPoints: { saddle: rear.saddle, upperGrip, lowerGripYMm },
    leftover: {
      saddleXMm: rear.saddle.xMm - wanted.saddle.xMm,
      saddleYMm: rear.saddle.yMm - wanted.saddle.yMm,
      upperGripXMm: upperGrip.xMm - wanted.upperGrip.xMm,
      upperGripYMm: upperGrip.yMm - wanted.upperGrip.yMm,
      lowerGripYMm: lowerGripLeftover(lowerGripYMm, wanted),
    },
    greatestLeftoverMm,
    fits: greatestLeftoverMm <= toleranceMm,
  };
}

/** Leftover of the lower grip; null where none is wanted or the bar has none. */
const lowerGripLeftover = (foundMm: number | null, { lowerGripYMm }: ContactPoints): number | null =>
  lowerGripYMm === null || foundMm === null ? null : foundMm - lowerGripYMm;

const isNearer = (one: Miss, other: Miss): boolean =>
  one.greatestMm < other.greatestMm || (one.greatestMm === other.greatestMm && one.squared < other.squared);

const clamped = (value: number, least: number, greatest: number): number =>
  Math.min(greatest, Math.max(least, value));

import type { Caution } from '../cautions.js';
import { formulaVersion } from '../formula-version.js';
import type { FootPitch } from '../leg-chain/foot-pitch.js';
import type { Uncertain } from '../uncertainty.js';
import { markerAngles, type FilmSettings } from './marker-angles.js';
import { requireWhole, type AngleName, type Recording, type Series } from './recording.js';
import { overCrank, runningCrankDeg, wholeTurns, type Turns } from './turns.js';

/** Mean over the turns and standard deviation between them, at one crank angle. */
export interface CrankSample extends Readonly<Record<AngleName, Uncertain>> {
  readonly crankDeg: number;
}

export type HeelPosture = 'heel-dropped' | 'level' | 'toe-pointed';

export interface Motion {
  readonly formulaVersion: string;
  readonly turns: number;
  readonly cadenceRpm: Uncertain;
  /** From the circle of the spindle; null when angles were recorded. Compare it with the crank on the bike. */
  readonly crankLengthFoundMm: number | null;
  /** Every 5° from top dead centre. */
  readonly samples: readonly CrankSample[];
  /** Where the mean knee is straightest. */
  readonly straightest: {
    readonly crankDeg: number;
    readonly kneeFlexionDeg: Uncertain;
    readonly footPitchDeg: Uncertain;
  };
  /** Greatest less least of each mean angle over the turn. */
  readonly rangeDeg: Readonly<Record<AngleName, number>>;
  /** By the foot pitch where the knee is straightest: within 5° of level, or beyond. House rule. */
  readonly heelPosture: HeelPosture;
  /** Ready for the leg chain. */
  readonly footPitch: FootPitch;
  readonly cautions: readonly Caution[];
}

const steps = 72;
const levelWithinDeg = 5;

const readsStraighter: Caution = {
  code: 'two-dimensional',
  text: 'Filmed in one plane: the knee near the bottom reads straighter than in space, by about 2.2° (Fonda et al. 2014, J Sports Sci 32(10):940–946).',
};
const hipLandmark: Caution = {
  code: 'hip-landmark',
  text: 'Another hip landmark shifts the knee angle by 4 to 7° (Galindo-Martínez et al. 2024, J Appl Biomech 40(3):176–182): keep to one.',
};

/**
 * What a recording of pedalling shows, turn by turn and over them: joint angles over the crank, straightest knee, how
 * the foot is held.
 *
 * @param film how the markers were filmed; not read for recorded angles
 * @throws FitMathError naming the row of a gap, of swapped markers or of a crank that falls back, or a setting that
 *   puts the leg upside down, or fewer than three whole turns
 * @source planar geometry; two-dimensional reading error as in the cautions
 * @check src/motion/motion: a filmed rider made by the chain, and under a pixel of noise
 * @tolerance 0.05°; 0.3°
 * @example
 * const crankDeg = Array.from({ length: 400 }, (_, i) => (5 * i) % 360);
 * const swing = (middle: number, by: number) =>
 *   crankDeg.map((deg) => middle + by * Math.cos((deg * Math.PI) / 180));
 * analyseMotion(
 *   {
 *     kind: 'angles',
 *     timeS: crankDeg.map((_, i) => i / 108),
 *     crankDeg,
 *     kneeFlexionDeg: swing(72, 37),
 *     thighElevationDeg: swing(-38, 24),
 *     ankleAngleDeg: swing(80, -10),
 *     footPitchDeg: swing(14, -6),
 *   },
 *   { sideSeen: 'right', imageY: 'down', mmPerUnit: 1, markerLineWithSoleLevelDeg: 0 },
 * );
 * // { turns: 5, heelPosture: 'toe-pointed', straightest: { crankDeg: 180, kneeFlexionDeg: { value: 35 } } }
 */
export function analyseMotion(recording: Recording, film: FilmSettings): Motion {
  const { crankLengthMm, ...angles } = anglesOf(recording, film);
  const running = runningCrankDeg(angles.crankDeg);
  const turns = wholeTurns(running);
  const curve = (name: AngleName) => meanCurve(overCrank(running, angles[name], turns, steps), turns.count);
  const curves = {
    kneeFlexionDeg: curve('kneeFlexionDeg'),
    thighElevationDeg: curve('thighElevationDeg'),
    ankleAngleDeg: curve('ankleAngleDeg'),
    footPitchDeg: curve('footPitchDeg'),
  };
  const straightest = straightestOf(curves);
  return {
    formulaVersion,
    turns: turns.count,
    cadenceRpm: cadence(running, recording.timeS, turns),
    crankLengthFoundMm: crankLengthMm,
    samples: Array.from({ length: steps }, (_, i) => ({
      crankDeg: (360 * i) / steps,
      kneeFlexionDeg: at(curves.kneeFlexionDeg, i),
      thighElevationDeg: at(curves.thighElevationDeg, i),
      ankleAngleDeg: at(curves.ankleAngleDeg, i),
      footPitchDeg: at(curves.footPitchDeg, i),
    })),
    straightest,
    rangeDeg: {
      kneeFlexionDeg: rangeOf(curves.kneeFlexionDeg),
      thighElevationDeg: rangeOf(curves.thighElevationDeg),
      ankleAngleDeg: rangeOf(curves.ankleAngleDeg),
      footPitchDeg: rangeOf(curves.footPitchDeg),
    },
    heelPosture: postureOf(straightest.footPitchDeg.value),
    footPitch: { kind: 'series', readingsDeg: curves.footPitchDeg.map(({ value }) => value) },
    cautions: [readsStraighter, hipLandmark],
  };
}

function anglesOf(
  recording: Recording,
  film: FilmSettings,
): Readonly<Record<AngleName | 'crankDeg', Series>> & { readonly crankLengthMm: number | null } {
  if (recording.kind === 'markers') return markerAngles(recording, film);
  const { kneeFlexionDeg, thighElevationDeg, ankleAngleDeg, footPitchDeg, crankDeg } = recording;
  const angles = { kneeFlexionDeg, thighElevationDeg, ankleAngleDeg, footPitchDeg, crankDeg };
  requireWhole(recording.timeS, angles);
  return { ...angles, crankLengthMm: null };
}

/** Mean and sample standard deviation over the turns at every step. */
function meanCurve(read: Float64Array, turns: number): Uncertain[] {
  return Array.from({ length: steps }, (_, step) => {
    const values = Array.from({ length: turns }, (__, turn) => read[turn * steps + step] ?? Number.NaN);
    return meanAndSd(values);
  });
}

function meanAndSd(values: Series): Uncertain {
  const value = values.reduce((sum, one) => sum + one, 0) / values.length;
  const squares = values.reduce((sum, one) => sum + (one - value) ** 2, 0);
  return { value, sd: Math.sqrt(squares / (values.length - 1)) };
}

/** The least of the mean knee curve, between steps by a parabola through three of them. */
function straightestOf({
  kneeFlexionDeg: knee,
  footPitchDeg: pitch,
}: Record<AngleName, readonly Uncertain[]>): Motion['straightest'] {
  const least = knee.reduce((best, { value }, i) => (value < at(knee, best).value ? i : best), 0);
  const before = at(knee, least - 1).value;
  const here = at(knee, least);
  const after = at(knee, least + 1).value;
  const curvature = before - 2 * here.value + after;
  const shift = curvature > 0 ? (0.5 * (before - after)) / curvature : 0;
  const pitchHere = at(pitch, least);
  const pitchNext = at(pitch, least + Math.sign(shift));
  return {
    crankDeg: (360 * (least + shift)) / steps,
    kneeFlexionDeg: { value: here.value - 0.25 * (before - after) * shift, sd: here.sd },
    footPitchDeg: {
      value: pitchHere.value + Math.abs(shift) * (pitchNext.value - pitchHere.value),
      sd: pitchHere.sd,
    },
  };
}

function cadence(running: Float64Array, timeS: Series, turns: Turns): Uncertain {
  // One reading a turn, and one more for the end of the last.
  const starts = overCrank(running, timeS, { ...turns, count: turns.count + 1 }, 1);
  const each = Array.from(starts.subarray(1), (end, turn) => 60 / (end - (starts[turn] ?? 0)));
  return meanAndSd(each);
}

function rangeOf(curve: readonly Uncertain[]): number {
  const values = curve.map(({ value }) => value);
  return Math.max(...values) - Math.min(...values);
}

function postureOf(pitchDeg: number): HeelPosture {
  if (pitchDeg < -levelWithinDeg) return 'heel-dropped';
  return pitchDeg > levelWithinDeg ? 'toe-pointed' : 'level';
}

/** Periodic: the step before the first is the last. */
function at(curve: readonly Uncertain[], step: number): Uncertain {
  return curve.at(step % steps) as Uncertain;
}

import { degreesOf } from '../angles.js';
import { FitMathError } from '../errors.js';
import { requireRange } from '../require-range.js';
import { crankCentre } from './crank-centre.js';
import {
  median,
  requireWhole,
  rowField,
  type AngleName,
  type MarkerName,
  type MarkerRecording,
  type Series,
} from './recording.js';

/** How the film was taken. */
export interface FilmSettings {
  /** The side of the rider the camera sees; seen from the right, the rider faces right. */
  readonly sideSeen: 'left' | 'right';
  /** Whether the image's y grows downwards, as in pixels, or upwards. */
  readonly imageY: 'down' | 'up';
  /** Millimetres to one unit of the recording, at the plane of the leg. 0.01–1000. */
  readonly mmPerUnit: number;
  /** What the line from heel to toe marker reads with the sole level, toe-down positive. −45–45. */
  readonly markerLineWithSoleLevelDeg: number;
}

export interface MarkerAngles extends Readonly<Record<AngleName, Series>> {
  readonly crankDeg: Series;
  readonly crankLengthMm: number;
}

/** Segments that stay as long as they are while one pedals, whatever the pose. */
const rigidPairs: readonly (readonly [MarkerName, MarkerName])[] = [
  ['hip', 'knee'],
  ['knee', 'ankle'],
  ['ankle', 'heel'],
  ['heel', 'toe'],
  ['ankle', 'toe'],
  ['ankle', 'spindle'],
];

/** House rule: out of plane and skin movement stay well below this, swapped markers go well above. */
const rigidWithin = 0.2;

/**
 * Angles at every sample of a marker recording.
 *
 * Swapped markers are found by the segments between them: a segment whose length leaves its own median by a fifth is
 * refused with its row, and so is a hip far from its own place; markers swapped throughout put the leg upside down or the toe behind the heel.
 *
 * @throws FitMathError naming the row, or the setting that puts the leg upside down or back to front
 * @source planar geometry; in the senses of the leg chain
 * @check src/motion/motion: the same from either side, y up or down, in any unit
 * @tolerance 1e-9°
 */
export function markerAngles(recording: MarkerRecording, film: FilmSettings): MarkerAngles {
  requireRange('mmPerUnit', film.mmPerUnit, 0.01, 1000);
  const level = requireRange('markerLineWithSoleLevelDeg', film.markerLineWithSoleLevelDeg, -45, 45);
  const { markers } = recording;
  requireWhole(
    recording.timeS,
    Object.fromEntries(
      Object.entries(markers).flatMap(([name, { x, y }]) => [
        [`${name}X`, x],
        [`${name}Y`, y],
      ]),
    ),
  );
  const forward = film.sideSeen === 'right' ? 1 : -1;
  const up = film.imageY === 'up' ? 1 : -1;
  const placed = (name: MarkerName) => ({
    x: Float64Array.from(markers[name].x, (value) => forward * value),
    y: Float64Array.from(markers[name].y, (value) => up * value),
  });
  const tracks = {
    hip: placed('hip'),
    knee: placed('knee'),
    ankle: placed('ankle'),
    heel: placed('heel'),
    toe: placed('toe'),
    spindle: placed('spindle'),
  };
  requireRigid(tracks);
  requireUpright(tracks);

  const centre = crankCentre(tracks.spindle.x, tracks.spindle.y);
  const { hip, knee, ankle, heel, toe, spindle } = tracks;
  const angles = recording.timeS.map((_, i) => {
    const thighX = at(knee.x, i) - at(hip.x, i);
    const thighY = at(knee.y, i) - at(hip.y, i);
    const shankX = at(ankle.x, i) - at(knee.x, i);
    const shankY = at(ankle.y, i) - at(knee.y, i);
    const toeDown = -Math.atan2(at(toe.y, i) - at(heel.y, i), at(toe.x, i) - at(heel.x, i));
    const footPitchDeg = degreesOf(toeDown) - level;
    return {
      kneeFlexionDeg: degreesOf(
        Math.atan2(thighY * shankX - thighX * shankY, thighX * shankX + thighY * shankY),
      ),
      thighElevationDeg: degreesOf(Math.atan2(thighY, thighX)),
      ankleAngleDeg: degreesOf(Math.atan2(-shankY, -shankX)) + footPitchDeg,
      footPitchDeg,
      crankDeg: degreesOf(Math.atan2(at(spindle.x, i) - centre.x, at(spindle.y, i) - centre.y)),
    };
  });
  return {
    crankDeg: angles.map(({ crankDeg }) => crankDeg),
    kneeFlexionDeg: angles.map(({ kneeFlexionDeg }) => kneeFlexionDeg),
    thighElevationDeg: angles.map(({ thighElevationDeg }) => thighElevationDeg),
    ankleAngleDeg: angles.map(({ ankleAngleDeg }) => ankleAngleDeg),
    footPitchDeg: angles.map(({ footPitchDeg }) => footPitchDeg),
    crankLengthMm: centre.radius * film.mmPerUnit,
  };
}

type Tracks = Readonly<Record<MarkerName, { readonly x: Float64Array; readonly y: Float64Array }>>;

function requireRigid(tracks: Tracks): void {
  const { hip } = tracks;
  const hipPlace = { x: median(Array.from(hip.x)), y: median(Array.from(hip.y)) };
  const thigh = median(lengthsOf(tracks, 'hip', 'knee'));
  const faults = rigidPairs.map(([one, other]) => {
    const lengths = lengthsOf(tracks, one, other);
    const usual = median(lengths);
    const row = lengths.findIndex((length) => Math.abs(length - usual) > rigidWithin * usual);
    return { row, column: `${one}-${other}` };
  });
  // Deep in the flexed knee, hip and knee can change places and leave every segment as long as it was.
  faults.push({
    row: Array.from(hip.x).findIndex(
      (x, i) => Math.hypot(x - hipPlace.x, at(hip.y, i) - hipPlace.y) > 2 * rigidWithin * thigh,
    ),
    column: 'hip',
  });
  const [first] = faults.filter(({ row }) => row !== -1).sort((one, other) => one.row - other.row);
  if (first) {
    throw new FitMathError(
      'input.out-of-range',
      rowField(first.row, first.column),
      'where and as far apart as in the other rows: are markers swapped or lost here?',
    );
  }
}

function lengthsOf(tracks: Tracks, one: MarkerName, other: MarkerName): number[] {
  const [from, to] = [tracks[one], tracks[other]];
  return Array.from(from.x, (x, i) => Math.hypot(x - at(to.x, i), at(from.y, i) - at(to.y, i)));
}

function requireUpright({ hip, knee, ankle, heel, toe }: Tracks): void {
  if (!(mean(hip.y) > mean(knee.y) && mean(knee.y) > mean(ankle.y))) {
    throw new FitMathError(
      'input.out-of-range',
      'imageY',
      'the direction that puts hip above knee above ankle; else markers are swapped throughout',
    );
  }
  if (mean(toe.x) <= mean(heel.x)) {
    throw new FitMathError(
      'input.out-of-range',
      'sideSeen',
      'the side that puts the toe before the heel; else markers are swapped throughout',
    );
  }
}

const mean = (values: Float64Array): number => values.reduce((sum, value) => sum + value, 0) / values.length;

const at = (values: Float64Array, i: number): number => values[i] ?? Number.NaN;

import type { RideRecording, RideSample } from '../ride-recording.js';
import { metresBetween, placeOf, type Place } from './place.js';
import type { Span } from './sprint.js';
import { travelledM } from './travelled.js';

/** A way with a start, an end and a direction. */
export interface Course {
  /** From start to end, about every `gateEveryM`. Passing them in order is what makes it the same way. */
  readonly gates: readonly Place[];
  readonly lengthM: number;
}

/** One time along a course. */
export interface CoursePass {
  readonly fromSecond: number;
  /** The second at the end; counted. */
  readonly toSecond: number;
  /** Give or take half a second at both ends. */
  readonly durationS: number;
  readonly lengthM: number;
  readonly meanSpeedMps: number;
  /** Of the seconds known; null when none is. */
  readonly meanPowerW: number | null;
  /** Share of seconds of which power is known. 0–1. */
  readonly powerCoverage: number;
  /** End above start; null when not recorded at both. */
  readonly riseM: number | null;
}

/** House rules: satellite places are a few metres off, and lanes differ. */
const gateEveryM = 150;
const gateWithinM = 25;
/** Between two gates the way may not be longer than this many times the first ride's. */
const longestDetour = 1.25;

/**
 * The way ridden in a span of a ride.
 *
 * @returns null when places are not recorded there, or the way is shorter than two gates
 * @example const course = courseOf(ride, { fromSecond: 600, toSecond: 1500 });
 */
export function courseOf(ride: RideRecording, span: Span): Course | null {
  const samples = ride.samples.filter(({ second }) => second >= span.fromSecond && second < span.toSecond);
  const places = samples.map(placeOf).filter((place) => place !== null);
  const lengthM = travelledM(samples);
  const [start] = places;
  const end = places.at(-1);
  if (start === undefined || end === undefined || lengthM === null || lengthM < 2 * gateEveryM) return null;
  const gates = [start];
  let sinceGateM = 0;
  places.forEach((place, i) => {
    sinceGateM += metresBetween(places[i - 1] ?? place, place);
    if (sinceGateM >= gateEveryM) {
      gates.push(place);
      sinceGateM = 0;
    }
  });
  if (sinceGateM < gateEveryM / 2) gates.pop();
  gates.push(end);
  return { gates, lengthM };
}

/**
 * Every time a ride follows the course from start to end, in its direction.
 *
 * @example passesOf(rideAfter, course)[0]?.durationS;
 */
export function passesOf(ride: RideRecording, course: Course): CoursePass[] {
  const track = ride.samples.flatMap((sample) => {
    const place = placeOf(sample);
    return place === null ? [] : [{ sample, place }];
  });
  const passes: CoursePass[] = [];
  for (let i = 0; i < track.length;) {
    const start = closestApproach(track, i, course.gates[0], Infinity);
    if (start === null) break;
    const end = follow(track, start, course);
    if (end === null) {
      // One visit to the start is one try: a rider who waits there for an hour is not followed each second.
      for (i = start + 1; i < track.length && isAt(track[i]?.place, course.gates[0]);) i += 1;
      continue;
    }
    passes.push(passOf(track.slice(start, end + 1).map(({ sample }) => sample)));
    i = end;
  }
  return passes;
}

type Track = readonly { readonly sample: RideSample; readonly place: Place }[];

/** Where the track passes all further gates in order; null when it leaves the course. */
function follow(track: Track, start: number, { gates }: Course): number | null {
  let at = start;
  for (const [i, gate] of gates.entries()) {
    const before = gates[i - 1];
    if (before === undefined) continue;
    const next = closestApproach(
      track,
      at,
      gate,
      longestDetour * metresBetween(before, gate) + 2 * gateWithinM,
    );
    if (next === null) return null;
    at = next;
  }
  return at;
}

/** The sample nearest to the gate, the first time the track comes within reach; null when it does not within that way. */
function closestApproach(
  track: Track,
  from: number,
  gate: Place | undefined,
  withinM: number,
): number | null {
  if (gate === undefined) return null;
  let nearest: number | null = null;
  let nearestM = gateWithinM;
  let riddenM = 0;
  for (let i = from; i < track.length; i += 1) {
    const place = track[i]?.place;
    if (place === undefined) return nearest;
    if (i > from) riddenM += metresBetween(track[i - 1]?.place ?? place, place);
    const distanceM = metresBetween(place, gate);
    if (distanceM < nearestM) {
      nearest = i;
      nearestM = distanceM;
    } else if (nearest !== null && distanceM > gateWithinM) {
      return nearest;
    }
    if (nearest === null && riddenM > withinM) return null;
  }
  return nearest;
}

function isAt(place: Place | undefined, gate: Place | undefined): boolean {
  return place !== undefined && gate !== undefined && metresBetween(place, gate) <= gateWithinM;
}

function passOf(samples: readonly RideSample[]): CoursePass {
  const first = samples[0];
  const last = samples.at(-1);
  const fromSecond = first?.second ?? 0;
  const toSecond = last?.second ?? 0;
  const durationS = toSecond - fromSecond;
  const lengthM = travelledM(samples) ?? 0;
  const known = samples.map(({ powerW }) => powerW).filter((powerW) => powerW !== null);
  return {
    fromSecond,
    toSecond,
    durationS,
    lengthM,
    meanSpeedMps: lengthM / durationS,
    meanPowerW: known.length === 0 ? null : known.reduce((sum, powerW) => sum + powerW, 0) / known.length,
    powerCoverage: known.length / (durationS + 1),
    riseM: first?.altitudeM == null || last?.altitudeM == null ? null : last.altitudeM - first.altitudeM,
  };
}

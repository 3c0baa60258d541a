import { footPitchFunction, type FootPitch } from './foot-pitch.js';
import type { Leg } from './leg.js';

export interface Point {
  readonly xMm: number;
  readonly yMm: number;
}

/** What of a leg places its ankle. */
export type FootAndCrank = Pick<Leg, 'footLeverMm' | 'ankleAboveSpindleMm' | 'crankLengthMm'>;

/** The ankle joint from the bottom bracket, and how the foot is held there. */
export interface HeldAnkle extends Point {
  /** Sole to the horizontal, toe-down positive. */
  readonly pitchRad: number;
}

/**
 * Where the ankle joint is at any crank angle, from the bottom bracket: the spindle's place plus the foot held at its
 * pitch.
 *
 * @param pitch already checked by `requireFootPitch`
 * @returns the ankle for the cosine and sine of a crank angle, 0 at top dead centre and increasing in the pedalling
 *   direction; a caller with a table of them pays for no trigonometry twice
 * @source planar linkage with the foot as a rigid link, after Hull & Jorge 1985, J Biomech 18:631–644 (citation from
 *   memory); the crank angle is taken from the vertical as there
 * @check outside/geometry-package: spindle and foot turned as points
 * @tolerance 1e-6°
 */
export function ankleOverTurn(
  leg: FootAndCrank,
  pitch: FootPitch,
): (crankCosine: number, crankSine: number) => HeldAnkle {
  const { footLeverMm: a, ankleAboveSpindleMm: v, crankLengthMm: c } = leg;
  const pitchAt = footPitchFunction(pitch);
  let heldAt = Number.NaN;
  let footX = 0;
  let footY = 0;
  return (crankCosine, crankSine) => {
    const pitchRad = pitchAt(crankCosine, crankSine);
    // A foot held still, the usual input, is turned once.
    if (pitchRad !== heldAt) {
      const cosine = Math.cos(pitchRad);
      const sine = Math.sin(pitchRad);
      footX = v * sine - a * cosine;
      footY = a * sine + v * cosine;
      heldAt = pitchRad;
    }
    return { pitchRad, xMm: c * crankSine + footX, yMm: c * crankCosine + footY };
  };
}

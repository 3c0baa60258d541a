// What the library's answers cost without a library: one loop, everything inlined, nothing checked, nothing named.

const degrees = 180 / Math.PI;

/**
 * @typedef {{ thighMm: number, shankMm: number, footLeverMm: number, ankleAboveSpindleMm: number, crankLengthMm: number }} Leg
 * @typedef {{ knee: Float64Array, thigh: Float64Array, ankle: Float64Array }} Angles
 */

/**
 * Joint angles over a turn with the foot held still, into arrays that are there already.
 *
 * @param {Leg} leg
 * @param {number} pitchDeg
 * @param {{ xMm: number, yMm: number }} hip
 * @param {Angles} into one value a step
 */
export function bareRevolution(leg, pitchDeg, hip, into) {
  const { thighMm: t, shankMm: s, footLeverMm: a, ankleAboveSpindleMm: v, crankLengthMm: c } = leg;
  const steps = into.knee.length;
  const pitch = pitchDeg / degrees;
  for (let i = 0; i < steps; i += 1) {
    const crank = (2 * Math.PI * i) / steps;
    const cosine = Math.cos(pitch);
    const sine = Math.sin(pitch);
    const dx = c * Math.sin(crank) - a * cosine + v * sine - hip.xMm;
    const dy = c * Math.cos(crank) + a * sine + v * cosine - hip.yMm;
    const squared = dx * dx + dy * dy;
    const flexion = Math.PI - Math.acos((t * t + s * s - squared) / (2 * t * s));
    const thigh = Math.atan2(dy, dx) + Math.acos((t * t + squared - s * s) / (2 * t * Math.sqrt(squared)));
    into.knee[i] = flexion * degrees;
    into.thigh[i] = thigh * degrees;
    into.ankle[i] = (thigh - flexion + Math.PI + pitch) * degrees;
  }
}

/**
 * The same with four clock readings, by the polynomial through them written out.
 *
 * @param {Leg} leg
 * @param {readonly [number, number, number, number]} readingsDeg
 * @param {{ xMm: number, yMm: number }} hip
 * @param {Angles} into one value a step
 */
export function bareClockRevolution(leg, readingsDeg, hip, into) {
  const { thighMm: t, shankMm: s, footLeverMm: a, ankleAboveSpindleMm: v, crankLengthMm: c } = leg;
  const steps = into.knee.length;
  const [top, front, bottom, back] = readingsDeg;
  const mean = (top + front + bottom + back) / 4 / degrees;
  const cosine1 = (top - bottom) / 2 / degrees;
  const sine1 = (front - back) / 2 / degrees;
  const cosine2 = (top - front + bottom - back) / 4 / degrees;
  for (let i = 0; i < steps; i += 1) {
    const crank = (2 * Math.PI * i) / steps;
    const x = Math.cos(crank);
    const y = Math.sin(crank);
    const pitch = mean + cosine1 * x + sine1 * y + cosine2 * (x * x - y * y);
    const cosine = Math.cos(pitch);
    const sine = Math.sin(pitch);
    const dx = c * y - a * cosine + v * sine - hip.xMm;
    const dy = c * x + a * sine + v * cosine - hip.yMm;
    const squared = dx * dx + dy * dy;
    const flexion = Math.PI - Math.acos((t * t + s * s - squared) / (2 * t * s));
    const thigh = Math.atan2(dy, dx) + Math.acos((t * t + squared - s * s) / (2 * t * Math.sqrt(squared)));
    into.knee[i] = flexion * degrees;
    into.thigh[i] = thigh * degrees;
    into.ankle[i] = (thigh - flexion + Math.PI + pitch) * degrees;
  }
}

/**
 * The greatest leftover of the nearest build: every stem, spacer, bar and seatpost tried, only the best kept.
 *
 * @param {import('@studio/fit-math').TransferInput} input
 * @returns {number}
 */
export function bareSearch({ wanted, frame, parts }) {
  const head = frame.headTubeAngleDeg / degrees;
  const tube = frame.seatTubeAngleDeg / degrees;
  const { saddle } = parts;
  let nearest = Infinity;
  let nearestSquared = Infinity;
  for (const stem of parts.stems) {
    const rise = Math.PI / 2 - head + stem.angleDeg / degrees;
    for (const spacersMm of parts.spacersMm) {
      const up = frame.topCapMm + spacersMm + stem.clampHeightMm / 2;
      const clampX = frame.reachMm - up * Math.cos(head) + stem.lengthMm * Math.cos(rise);
      const clampY = frame.stackMm + up * Math.sin(head) + stem.lengthMm * Math.sin(rise);
      for (const bar of parts.bars) {
        const gripX = clampX + bar.reachMm - wanted.upperGrip.xMm;
        const gripY = clampY + bar.riseMm - wanted.upperGrip.yMm;
        const lowerY = clampY - (bar.dropMm ?? NaN) - (wanted.lowerGripYMm ?? NaN);
        for (const { setbackMm } of parts.seatposts) {
          const along = Math.min(
            frame.clampAlongTubeMm.greatest,
            Math.max(
              frame.clampAlongTubeMm.least,
              (wanted.saddle.yMm - saddle.railToTopMm + setbackMm * Math.cos(tube)) / Math.sin(tube),
            ),
          );
          const saddleX =
            frame.seatTubeAxisAheadMm -
            along * Math.cos(tube) -
            setbackMm * Math.sin(tube) -
            saddle.widthPointBehindRailMiddleMm -
            wanted.saddle.xMm;
          const slid = Math.min(saddle.railTravelMm, Math.max(-saddle.railTravelMm, -saddleX));
          const saddleY =
            along * Math.sin(tube) - setbackMm * Math.cos(tube) + saddle.railToTopMm - wanted.saddle.yMm;
          const greatest = Math.max(
            Math.abs(gripX),
            Math.abs(gripY),
            Math.abs(lowerY),
            Math.abs(saddleX + slid),
            Math.abs(saddleY),
          );
          const squared =
            gripX * gripX + gripY * gripY + lowerY * lowerY + (saddleX + slid) ** 2 + saddleY * saddleY;
          if (greatest < nearest || (greatest === nearest && squared < nearestSquared)) {
            nearest = greatest;
            nearestSquared = squared;
          }
        }
      }
    }
  }
  return nearest;
}

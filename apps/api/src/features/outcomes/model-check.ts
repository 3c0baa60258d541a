import { fewestForVerdict, limitsOfAgreement, summariseChanges } from '@studio/outcome-stats';
import {
  pitchBands,
  type AgreementResponse,
  type ModelCheckResponse,
  type PitchBand,
  type SaddleOffsetResponse,
  type SuggestedOffsetResponse,
} from './model-check.dto.js';
import type { Prediction } from './model-check.queries.js';
import { signed } from './signed.js';

/** A saddle cannot be set finer. House rule. */
const stepMm = 0.5;

const isIn: Readonly<Record<PitchBand, (footPitchDeg: number) => boolean>> = {
  all: () => true,
  below_0: (deg) => deg < 0,
  from_0_to_10: (deg) => deg >= 0 && deg < 10,
  from_10_to_20: (deg) => deg >= 10 && deg < 20,
  from_20: (deg) => deg >= 20,
};

/**
 * How the saddles left lie against the formula: always against the formula alone, so that an offset already applied
 * does not hide what it was applied for.
 */
export function modelCheck(
  predictions: readonly Prediction[],
  inForce: SaddleOffsetResponse,
): ModelCheckResponse {
  const overall = agreement('all', predictions);
  return {
    overall,
    byFootPitch: pitchBands.filter((band) => band !== 'all').map((band) => agreement(band, predictions)),
    inForce,
    suggested: suggestion(overall, inForce),
    caution:
      'A saddle moved for another reason too counts as the formula’s error, and a fitter who sets what was computed makes it look right.',
  };
}

function agreement(footPitch: PitchBand, predictions: readonly Prediction[]): AgreementResponse {
  const pairs = predictions
    .filter(({ footPitchDeg }) => isIn[footPitch](footPitchDeg))
    .map(({ predictedMm, leftMm }) => ({ before: predictedMm, after: leftMm }));
  const { method, n, bias, biasInterval95, limits } = limitsOfAgreement(summariseChanges(pairs, 0));
  return {
    footPitch,
    method,
    n,
    biasMm: bias,
    biasInterval95Mm: biasInterval95,
    lowerLimitMm: limits?.lower ?? null,
    upperLimitMm: limits?.upper ?? null,
    sentence: sentence(n, bias, biasInterval95, limits),
  };
}

function sentence(
  n: number,
  bias: number | null,
  interval: AgreementResponse['biasInterval95Mm'],
  limits: ReturnType<typeof limitsOfAgreement>['limits'],
): string {
  if (bias === null || limits === null)
    return `Agreement cannot be judged from ${n === 1 ? 'one session' : 'no session'}.`;
  const range =
    interval === null ? '' : ` (95 % interval ${signed(interval.low)} to ${signed(interval.high)})`;
  return `In ${n} sessions the saddle was left ${signed(bias)} mm from what was computed${range}; 95 % lie within ${signed(limits.lower.value)} to ${signed(limits.upper.value)} mm.`;
}

/** The bias, to the step a saddle can be set by, when its interval leaves out the offset in force. */
function suggestion(
  { n, biasMm, biasInterval95Mm }: AgreementResponse,
  { offsetMm: inForce }: SaddleOffsetResponse,
): SuggestedOffsetResponse | null {
  if (biasMm === null || biasInterval95Mm === null || n < fewestForVerdict) return null;
  const { low, high } = biasInterval95Mm;
  const offsetMm = Math.round(biasMm / stepMm) * stepMm;
  if ((low <= inForce && inForce <= high) || offsetMm === inForce) return null;
  return {
    offsetMm,
    because: `In ${n} sessions the saddle was left ${signed(biasMm)} mm from the formula, with 95 % confidence by ${signed(low)} to ${signed(high)} mm; the offset in force is ${signed(inForce)} mm.`,
  };
}

import { requireRange } from '../require-range.js';

/**
 * Frontal area of rider and bike by where the hands are, over that with the hands on the hoods. The publication's
 * absolute areas are a quarter or more above other authors': only the ratios are kept.
 *
 * Source: Heil 2002, Eur J Appl Physiol 87:520–528; coefficients by way of a secondary listing.
 */
export const handPositionAreaRatios = {
  tops: 0.04038 / 0.04324,
  hoods: 1,
  drops: 0.04091 / 0.04324,
  low_extensions: 0.03534 / 0.04324,
} as const;

export type HandPosition = keyof typeof handPositionAreaRatios;

export interface RiderSize {
  /** 1–2.3. */
  readonly statureM: number;
  /** 30–200. */
  readonly massKg: number;
}

/**
 * Frontal area of one rider over that of another, both in a time-trial position. A ratio, since predicted areas are
 * themselves off by about a tenth (Garimella et al. 2020, Appl Sci 10(23):8635).
 *
 * @returns 1 = as large; above 1 = `rider` is larger than `other`
 * @throws FitMathError naming the input outside its range
 * @source Bassett, Kyle, Passfield, Broker, Burke 1999, MSSE 31(11):1665–1676; formula by way of secondary listings
 * @check outside/air: four sizes of rider, formula from secondary listings
 * @tolerance 0.0004
 * @example timeTrialAreaRatio({ statureM: 1.9, massKg: 90 }, { statureM: 1.75, massKg: 70 }); // 1.1477…
 */
export function timeTrialAreaRatio(rider: RiderSize, other: RiderSize): number {
  return timeTrialArea('rider', rider) / timeTrialArea('other', other);
}

function timeTrialArea(field: string, { statureM, massKg }: RiderSize): number {
  requireRange(`${field}.statureM`, statureM, 1, 2.3);
  requireRange(`${field}.massKg`, massKg, 30, 200);
  return 0.0293 * statureM ** 0.725 * massKg ** 0.425 + 0.0604;
}

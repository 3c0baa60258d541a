import type { Bar, PartsOfBike, Seatpost, Stem } from '@studio/fit-math';
import type { findBikeResponse } from '../equipment/index.js';

type BikeWithParts = NonNullable<Awaited<ReturnType<typeof findBikeResponse>>>;
type Facts = Readonly<Record<string, number | string | null | undefined>>;

/** What a part that is on the bike is called among those that can be had. */
export const onIt = 'on it';

/** Parts in use by the measures a search needs; one of which a measure is not on record is left out. */
export interface PartsInUse {
  readonly stems: readonly Stem[];
  readonly spacersMm: readonly number[];
  readonly bars: readonly Bar[];
  readonly seatposts: readonly Seatpost[];
  readonly saddleTipTo80MmWidthMm: number | null;
  readonly pedalStackMm: number | null;
}

export function partsInUse({ parts }: BikeWithParts): PartsInUse {
  const of = (kind: string): Facts => (parts.find((part) => part.kind === kind)?.facts ?? {}) as Facts;
  const whole = <Part>(facts: Facts, needed: readonly string[]): Part[] =>
    needed.every((name) => facts[name] !== undefined)
      ? [{ id: onIt, ...Object.fromEntries(needed.map((name) => [name, facts[name]])) } as Part]
      : [];
  const number = (facts: Facts, name: string): number | null => {
    const value = facts[name];
    return typeof value === 'number' ? value : null;
  };
  const spacers = number(of('spacers'), 'heightMm');
  return {
    stems: whole(of('stem'), ['lengthMm', 'angleDeg', 'clampHeightMm']),
    spacersMm: spacers === null ? [] : [spacers],
    bars: whole(of('bars'), ['reachMm', 'riseMm', 'dropMm']),
    seatposts: whole(of('seatpost'), ['setbackMm']),
    saddleTipTo80MmWidthMm: number(of('saddle'), 'tipTo80MmWidthMm'),
    pedalStackMm: number(of('pedals'), 'stackMm'),
  };
}

export const partsOfBike = (
  { crankLengthMm }: Pick<BikeWithParts, 'crankLengthMm'>,
  { stems, spacersMm, bars, seatposts }: PartsInUse,
): PartsOfBike => ({
  stem: stems[0]?.id ?? null,
  spacersMm: spacersMm[0] ?? null,
  bars: bars[0]?.id ?? null,
  seatpost: seatposts[0]?.id ?? null,
  crankLengthMm,
});

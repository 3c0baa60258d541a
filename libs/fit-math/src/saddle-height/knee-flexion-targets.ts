/** The ways a knee is read; a target says nothing of a reading of another way. */
export const kneeReadings = {
  staticBottomDeg: 'Goniometer, rider stopped on the saddle, crank at bottom dead centre.',
  dynamicBottomDeg: 'Filmed riding, crank at bottom dead centre.',
  dynamicStraightestDeg: 'Filmed riding, wherever the knee is straightest.',
} as const;

export type KneeReading = keyof typeof kneeReadings;

/** A published band of knee flexion, 0 = straight. */
export interface KneeFlexionTarget {
  readonly id: string;
  readonly reading: KneeReading;
  readonly flexionDeg: readonly [number, number];
  readonly source: string;
}

export const kneeFlexionTargets = [
  {
    id: 'static-25-35',
    reading: 'staticBottomDeg',
    flexionDeg: [25, 35],
    source:
      'Holmes, Pruitt & Whalen 1994, Clin Sports Med 13:187–205, as listed by Holliday & Swart 2021; landmarks from memory',
  },
  {
    id: 'riding-easy-33-43',
    reading: 'dynamicBottomDeg',
    flexionDeg: [33, 43],
    source: 'Swart & Holliday 2019, Curr Sports Med Rep 18(12):490–496, at low intensity',
  },
  {
    id: 'riding-hard-30-40',
    reading: 'dynamicBottomDeg',
    flexionDeg: [30, 40],
    source: 'Swart & Holliday 2019, Curr Sports Med Rep 18(12):490–496, at high intensity',
  },
  {
    id: 'riding-straightest-30-40',
    reading: 'dynamicStraightestDeg',
    flexionDeg: [30, 40],
    source: 'Ferrer-Roca et al. 2012, J Strength Cond Res 26(11):3025–3029, filmed in one plane',
  },
] as const satisfies readonly KneeFlexionTarget[];

/**
 * How much straighter a knee near the bottom reads when filmed in one plane than in space, degrees: Fonda, Šarabon &
 * Li 2014, J Sports Sci 32(10):940–946. The targets come from film in one plane.
 */
export const readsStraighterInPlaneDeg = 2.2;

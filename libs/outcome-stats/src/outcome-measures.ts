/** How large a change must be, and who found that. */
export interface Threshold {
  /** In the unit of the measure. */
  readonly points: number | null;
  /** Of the value before. 0–1. */
  readonly shareOfBefore: number | null;
  readonly source: string;
}

export interface OutcomeMeasure {
  readonly better: 'lower' | 'higher';
  /** Ends of the scale; null where the measure has none. */
  readonly scale: { readonly low: number; readonly high: number } | null;
  /** Smaller changes of one person are within the error of measuring; null: none published that could be confirmed. */
  readonly detectable: Threshold | null;
  /** Smaller changes do not matter to the person; null: none published that could be confirmed. */
  readonly important: Threshold | null;
}

/**
 * What the studio asks before and after, with the smallest changes that can be seen and that matter.
 *
 * Detectable changes hold for one person measured twice, at 95 % unless said otherwise.
 */
export const outcomeMeasures = {
  /** 0 no pain – 10 worst imaginable, whole numbers. */
  pain: {
    better: 'lower',
    scale: { low: 0, high: 10 },
    detectable: {
      points: 2,
      shareOfBefore: null,
      source:
        'Childs, Piva, Fritz 2005, Spine 30:1331–1334 (standard error of measurement 1.02, low back pain)',
    },
    important: {
      points: 2,
      shareOfBefore: 0.3,
      source:
        'Farrar et al. 2001, Pain 94:149–158: about 2 points or 30 %, more points from a high start (n = 2724)',
    },
  },
  /** Mean of up to three activities the client chose: 0 unable – 10 as before the trouble. */
  chosen_activities: {
    better: 'higher',
    scale: { low: 0, high: 10 },
    detectable: {
      points: 2,
      shareOfBefore: null,
      source:
        'Stratford et al. 1995, Physiother Can 47:258–263: mean of activities, at 90 % (3 for a single activity)',
    },
    important: {
      points: 1.3,
      shareOfBefore: null,
      source:
        'Abbott & Schmitt 2014, J Orthop Sports Phys Ther 44:560–564: small change (medium 2.3, large 2.7)',
    },
  },
  /** −5 very much worse – 0 unchanged – 5 completely recovered; before is 0 by definition. */
  global_change: {
    better: 'higher',
    scale: { low: -5, high: 5 },
    detectable: null,
    important: {
      points: 2.5,
      shareOfBefore: null,
      source: 'Kamper, Maher, Mackay 2009, J Man Manip Ther 17:163–170; leans on how one feels at the end',
    },
  },
  /** 0 not comfortable at all – 100 most comfortable imaginable. */
  comfort: {
    better: 'higher',
    scale: { low: 0, high: 100 },
    detectable: null,
    important: {
      points: 10.2,
      shareOfBefore: null,
      source:
        'Mills, Blanch, Vicenzino 2010, Med Sci Sports Exerc 42:1966–1971: shoes, by anchor (9.59 by data)',
    },
  },
  /** 0 none – 100 worst imaginable, average over the last week. */
  foot_pain: {
    better: 'lower',
    scale: { low: 0, high: 100 },
    detectable: null,
    important: {
      points: 8,
      shareOfBefore: null,
      source:
        'Landorf et al. 2010 (author from memory), J Foot Ankle Res 3:7: average pain (19 for the first steps of the day)',
    },
  },
  /** Best mean power over 20 minutes, W. */
  power_20_min_w: {
    better: 'higher',
    scale: null,
    detectable: {
      points: null,
      shareOfBefore: 0.08,
      source:
        'Borszcz, Tramontin, Costa 2020, Int J Sports Med 41:175–181: test to test 2.9 %, times 1.96 √2 (3.7 % from ' +
        'MacInnis, Thomas, Phillips 2019, Int J Sports Physiol Perform 14:38–45, n = 8)',
    },
    important: { points: null, shareOfBefore: 0.02, source: 'House rule: the margin of “no power lost”' },
  },
  /** Highest power of one second in a sprint, W. */
  sprint_peak_w: {
    better: 'higher',
    scale: null,
    detectable: {
      points: null,
      shareOfBefore: 0.103,
      source: 'Falk Neto et al. 2024, PLoS ONE 19(9):e0307325: error 3.7 %, times 1.96 √2 (n = 27, 6 s)',
    },
    important: null,
  },
} as const satisfies Readonly<Record<string, OutcomeMeasure>>;

export type OutcomeMeasureId = keyof typeof outcomeMeasures;

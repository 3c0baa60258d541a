import type { Caution } from '../cautions.js';

export const holePatterns = ['three_bolt', 'two_bolt', 'four_bolt'] as const;
export type HolePattern = (typeof holePatterns)[number];

/** What the plan must know of a shoe; all places from the heel end of the shoe, along the sole. */
export interface ShoeFacts {
  /** Heel end to nose. 150–400. */
  readonly outerLengthMm: number;
  readonly holePattern: HolePattern;
  /** Cleat centre with the cleat at the front end of the slots. */
  readonly slotFrontFromHeelMm: number;
  /** Cleat centre with the cleat at the rear end of the slots. */
  readonly slotRearFromHeelMm: number;
  /** The sole is cut through by a channel under the arch. */
  readonly archChannel: boolean;
}

/** A way of going back, by kind of part; never by make. */
export interface CleatWay {
  readonly id: string;
  /** How far behind the rear end of the slots the cleat can come, or all the way to the midfoot line. */
  readonly reach: { readonly behindSlotsMm: number } | 'midfoot';
  /** Hole patterns the part is made for. */
  readonly fits: readonly HolePattern[];
  /** Needs an uncut sole under the arch. */
  readonly needsWholeArch: boolean;
  /** Why this way never works, whatever the shoe. */
  readonly never?: Caution;
  readonly cautions: readonly Caution[];
}

const irreversible: Caution = {
  code: 'not-reversible',
  text: 'The sole is cut or drilled: it cannot be undone and the maker’s warranty is likely void. Written consent first.',
};

/** Common practice, no source: which parts exist and what they can and cannot do. */
export const cleatWays: readonly CleatWay[] = [
  {
    id: 'within_slots',
    reach: { behindSlotsMm: 0 },
    fits: ['three_bolt', 'two_bolt', 'four_bolt'],
    needsWholeArch: false,
    cautions: [],
  },
  {
    id: 'rear_plate_12',
    reach: { behindSlotsMm: 12 },
    fits: ['three_bolt', 'four_bolt'],
    needsWholeArch: false,
    cautions: [],
  },
  {
    id: 'rear_plate_24',
    reach: { behindSlotsMm: 24 },
    fits: ['three_bolt', 'four_bolt'],
    needsWholeArch: false,
    cautions: [],
  },
  {
    id: 'slot_extension',
    reach: { behindSlotsMm: 15 },
    fits: ['three_bolt', 'two_bolt', 'four_bolt'],
    needsWholeArch: true,
    cautions: [irreversible],
  },
  {
    id: 'arch_base_three_bolt',
    reach: 'midfoot',
    fits: ['three_bolt', 'two_bolt', 'four_bolt'],
    needsWholeArch: true,
    never: {
      code: 'curved-cleat-on-flat-base',
      text: 'A three-bolt cleat is curved to the sole of the forefoot and cannot sit on a flat cast base.',
    },
    cautions: [irreversible],
  },
  {
    id: 'arch_base_four_bolt',
    reach: 'midfoot',
    fits: ['three_bolt', 'two_bolt', 'four_bolt'],
    needsWholeArch: true,
    cautions: [irreversible],
  },
];

import { midfootFromHeelMm, type Caution, type HolePattern } from '@studio/fit-math';
import { shoeWorkWays } from './ways.js';

/** What must be known of a pair of shoes before it is worked on; null: not looked at, or not known. */
export interface ShoeWorkFacts {
  /** Heel end to nose. */
  readonly outerLengthMm: number;
  readonly holePattern: HolePattern;
  /** Cleat centre with the cleat at the rear end of the slots, from the heel end of the shoe. */
  readonly slotRearFromHeelMm: number;
  /** The sole is cut through by a channel under the arch. */
  readonly archChannel: boolean;
  /** Lengthwise, where a base would lie. */
  readonly soleCurve: 'flat' | 'slight' | 'strong' | null;
  readonly soleMaterial: 'carbon' | 'plastic' | 'composite' | 'rubber' | 'other' | null;
  readonly cracked: boolean | null;
  /** Called back by its maker. */
  readonly recalled: boolean | null;
}

export interface MissingFact {
  readonly fact: keyof ShoeWorkFacts;
  /** What to do about it. */
  readonly text: string;
}

export interface Feasibility {
  readonly way: string;
  readonly result: 'feasible' | 'not_feasible' | 'cannot_tell';
  /** Why not; empty unless it is not feasible. */
  readonly reasons: readonly Caution[];
  /** What is not known and would have to be. Never a reassurance: without it nothing is feasible. */
  readonly missing: readonly MissingFact[];
}

/**
 * Whether a pair of shoes can take each way of shoe work. No published test of drilled or bonded soles was found: all of
 * it is common practice without a source.
 */
export const shoeWorkFeasibility = (facts: ShoeWorkFacts): readonly Feasibility[] =>
  shoeWorkWays.map(({ way }) => {
    const isBase = way.reach === 'midfoot';
    const reasons = [
      ...(way.never ? [way.never] : []),
      ...(way.fits.includes(facts.holePattern) ? [] : [wrongPattern]),
      ...outOfReach(facts, way.reach),
      ...(facts.archChannel ? [channel] : []),
      ...(facts.soleMaterial === 'rubber' ? [softSole] : []),
      ...(isBase && facts.soleCurve === 'strong' ? [curved] : []),
      ...(facts.cracked === true ? [cracked] : []),
      ...(facts.recalled === true ? [calledBack] : []),
    ];
    const missing = [
      ...(facts.soleMaterial === null || facts.soleMaterial === 'other' ? [materialUnknown] : []),
      ...(isBase && facts.soleCurve === null ? [curveUnknown] : []),
      ...(facts.cracked === null ? [cracksUnknown] : []),
      ...(facts.recalled === null ? [recallUnknown] : []),
    ];
    const open = missing.length > 0 ? 'cannot_tell' : 'feasible';
    return { way: way.id, result: reasons.length > 0 ? 'not_feasible' : open, reasons, missing };
  });

/** The slots may do without it, or the way would lead behind the midfoot line. */
function outOfReach(
  { outerLengthMm, slotRearFromHeelMm }: ShoeWorkFacts,
  reach: { readonly behindSlotsMm: number } | 'midfoot',
): Caution[] {
  const midfoot = midfootFromHeelMm(outerLengthMm);
  if (slotRearFromHeelMm <= midfoot) return [slotsReach];
  return reach !== 'midfoot' && slotRearFromHeelMm - reach.behindSlotsMm < midfoot ? [behindMidfoot] : [];
}

const wrongPattern: Caution = {
  code: 'hole-pattern',
  text: 'The part is not made for the hole pattern of this shoe.',
};
const slotsReach: Caution = {
  code: 'slots-reach',
  text: 'The slots reach the midfoot line already: no sole needs to be worked on.',
};
const behindMidfoot: Caution = {
  code: 'behind-midfoot',
  text: 'So long a slot would end behind the midfoot line.',
};
const channel: Caution = {
  code: 'arch-channel',
  text: 'A channel runs through the arch: nothing holds there.',
};
const softSole: Caution = {
  code: 'material-soft',
  text: 'A nut pulls through a rubber sole, and nothing bonds well to it.',
};
const curved: Caution = { code: 'curve-strong', text: 'A base cannot sit on so curved a sole.' };
const cracked: Caution = { code: 'cracked', text: 'The sole is cracked.' };
const calledBack: Caution = { code: 'recalled', text: 'The maker has called the shoe back.' };

const materialUnknown: MissingFact = { fact: 'soleMaterial', text: 'Find out what the sole is made of.' };
const curveUnknown: MissingFact = {
  fact: 'soleCurve',
  text: 'Lay a straight edge along the sole where the base would lie.',
};
const cracksUnknown: MissingFact = { fact: 'cracked', text: 'Look at both soles for cracks, insole out.' };
const recallUnknown: MissingFact = {
  fact: 'recalled',
  text: 'Look up whether the maker has called the shoe back.',
};

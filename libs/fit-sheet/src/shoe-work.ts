import { afterShoeWork, isBonded } from '@studio/shoe-work';
import type { FitSheetFacts, ShoeWorkSheetFacts, SheetOptions } from './facts.js';
import type { Block, Section } from './sheet.js';
import { dayWords, numberWords, partWords, type SheetWords } from './words/index.js';

/** What was done to soles, and what the rider has to know of it; cases in which no sole was touched are the studio's. */
export function shoeWork(
  { shoeWorks }: FitSheetFacts,
  { audience }: SheetOptions,
  words: SheetWords,
): Section | null {
  const told = shoeWorks.filter(({ begunOn }) => audience === 'studio' || begunOn !== null);
  if (told.length === 0) return null;
  const anyBegun = told.some(({ begunOn }) => begunOn !== null);
  const after = afterShoeWork.map(({ code, text }) => words.shoeWork.after[code] ?? text);
  return {
    heading: words.shoeWork.heading,
    blocks: [
      ...told.map((work): Block => ({ kind: 'paragraph', text: inWords(work, audience, words) })),
      ...told.flatMap((work) => torques(work, words)),
      ...(anyBegun ? [{ kind: 'list', items: after } as const] : []),
    ],
  };
}

function inWords(work: ShoeWorkSheetFacts, audience: SheetOptions['audience'], words: SheetWords): string {
  const { shoe, way, fixing, begunOn, curesUntil, consent, abandonedBecause } = work;
  const { what, planned, doneOn, curing, states, consented } = words.shoeWork;
  const day = (written: string) => dayWords(words, written);
  const subject = what(shoe, partWords(words, way), partWords(words, fixing));
  const sentences = [
    begunOn === null ? planned(subject) : doneOn(subject, day(begunOn)),
    ...(isBonded(fixing) && curesUntil !== null ? [curing(day(curesUntil))] : []),
    states[work.state],
    ...(audience === 'studio' && consent !== null
      ? [consented(consent.signedName, day(consent.on), consent.textVersion)]
      : []),
    ...(audience === 'studio' && abandonedBecause !== null ? [words.plan.why(abandonedBecause)] : []),
  ];
  return sentences.filter((sentence) => sentence !== '').join(' ');
}

function torques({ shoe, torqueNm }: ShoeWorkSheetFacts, words: SheetWords): Block[] {
  const newtonMetres = (value: number | null): string =>
    value === null ? '–' : `${numberWords(words, value, 1)} N·m`;
  const rows = (['left', 'right'] as const).flatMap((side) => {
    const { first, again } = torqueNm[side];
    return first === null
      ? []
      : [[words.shoeWork.shoe(shoe, side), newtonMetres(first), newtonMetres(again)]];
  });
  return rows.length === 0 ? [] : [{ kind: 'table', columns: words.shoeWork.torques, rows }];
}

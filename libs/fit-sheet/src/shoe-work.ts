import { afterShoeWork, isBonded } from '@studio/shoe-work';
import type { FitSheetFacts, ShoeWorkSheetFacts, SheetOptions } from './facts.js';
import type { Block, Section } from './sheet.js';
import { dayWords, numberWords, spaced } from './words.js';

/** What was done to soles, and what the rider has to know of it; cases in which no sole was touched are the studio's. */
export function shoeWork({ shoeWorks }: FitSheetFacts, { audience }: SheetOptions): Section | null {
  const told = shoeWorks.filter(({ begunOn }) => audience === 'studio' || begunOn !== null);
  if (told.length === 0) return null;
  const anyBegun = told.some(({ begunOn }) => begunOn !== null);
  return {
    heading: 'Shoe work',
    blocks: [
      ...told.map((work): Block => ({ kind: 'paragraph', text: inWords(work, audience) })),
      ...told.flatMap(torques),
      ...(anyBegun ? [{ kind: 'list', items: afterShoeWork.map(({ text }) => text) } as const] : []),
    ],
  };
}

function inWords(work: ShoeWorkSheetFacts, audience: SheetOptions['audience']): string {
  const { shoe, way, fixing, begunOn, curesUntil, consent, abandonedBecause } = work;
  const what = `${shoe}, left and right: ${spaced(way)}, ${spaced(fixing)}`;
  const sentences = [
    begunOn === null ? `${what}: planned, no sole has been touched.` : `${what} on ${dayWords(begunOn)}.`,
    ...(isBonded(fixing) && curesUntil !== null ? [`Time to cure: until ${dayWords(curesUntil)}.`] : []),
    stateInWords[work.state],
    ...(audience === 'studio' && consent !== null
      ? [
          `Consent signed by ${consent.signedName} on ${dayWords(consent.on)}, text version ${consent.textVersion}.`,
        ]
      : []),
    ...(audience === 'studio' && abandonedBecause !== null ? [`Why: ${abandonedBecause}`] : []),
  ];
  return sentences.filter((sentence) => sentence !== '').join(' ');
}

const stateInWords: Readonly<Record<ShoeWorkSheetFacts['state'], string>> = {
  opened: 'The consent is not signed yet.',
  consented: '',
  in_work: 'The work is not finished: do not ride these shoes.',
  curing: 'The work is not finished: do not ride these shoes.',
  to_collect: 'The hand-over is not finished: do not ride these shoes.',
  collected: 'Handed over; the bolts are to be tightened again after the first ride.',
  done: 'Handed over, and the bolts tightened again after the first ride.',
  abandoned: 'The work was given up before it was finished: do not ride these shoes unless we told you so.',
};

function torques({ shoe, torqueNm }: ShoeWorkSheetFacts): Block[] {
  const rows = (['left', 'right'] as const).flatMap((side) => {
    const { first, again } = torqueNm[side];
    return first === null ? [] : [[`${shoe}, ${side}`, newtonMetres(first), newtonMetres(again)]];
  });
  return rows.length === 0
    ? []
    : [{ kind: 'table', columns: ['Cleat bolts', 'At the hand-over', 'After the first ride'], rows }];
}

const newtonMetres = (value: number | null): string =>
  value === null ? '–' : `${numberWords(value, 1)} N·m`;

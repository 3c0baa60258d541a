import { describe, expect, it } from '@jest/globals';
import { buildFitSheet, figuresOf, fitSheetPage, type FitSheetFacts, type Sheet } from './index.js';
import { found, left, positionFacts, sheetFacts } from './testing/facts.js';

const rider = { audience: 'rider', lengths: 'mm' } as const;
const studio = { audience: 'studio', lengths: 'mm_and_inch' } as const;
const sheet = (known: Partial<FitSheetFacts> = {}, options: typeof rider | typeof studio = rider): Sheet =>
  buildFitSheet(sheetFacts(known), options);

function rowOf({ sections }: Sheet, name: string): readonly string[] | undefined {
  return sections
    .flatMap(({ blocks }) => blocks.flatMap((block) => (block.kind === 'table' ? block.rows : [])))
    .find(([first]) => first === name);
}
const headings = ({ sections }: Sheet): string[] => sections.map(({ heading }) => heading);
const wordsOf = ({ sections }: Sheet): string =>
  sections
    .flatMap(({ heading, blocks }) => [
      heading,
      ...blocks.flatMap((block) => {
        switch (block.kind) {
          case 'paragraph':
            return [block.text];
          case 'list':
            return block.items;
          case 'table':
            return [block.columns, ...block.rows].flat();
          case 'figure':
            return [block.drawing.title];
        }
      }),
    ])
    .join('\n');

describe('a fit sheet', () => {
  it('has before, after and the change of every figure', () => {
    expect(rowOf(sheet(), 'Saddle height')).toEqual(['Saddle height', '740 mm', '728 mm', '−12 mm']);
    expect(rowOf(sheet({}, studio), 'Saddle height')).toEqual([
      'Saddle height',
      '740 mm (29.13 in)',
      '728 mm (28.66 in)',
      '−12 mm',
    ]);
    // Both readings err by more than a millimetre.
    expect(rowOf(sheet(), 'Drop to the bars')?.at(-1)).toBe('+1 mm *');
    expect(rowOf(sheet(), 'Saddle tilt, nose up')).toEqual(['Saddle tilt, nose up', '−1°', '−1°', '0']);
    expect(rowOf(sheet(), 'Parts at the left foot')).toEqual([
      'Parts at the left foot',
      'three bolt cleat',
      'three bolt cleat, rear plate 24',
      '',
    ]);
  });

  it('says with a dash what was not measured, and leaves out what was in neither', () => {
    const { saddleSetbackMm: _, ...rest } = left;
    const some = sheet({ left: positionFacts(rest) });
    expect(rowOf(some, 'Saddle setback, tip')).toEqual(['Saddle setback, tip', '60 mm', '–', '–']);
    expect(rowOf(some, 'Bar width')).toBeUndefined();
    expect(figuresOf(some).map(({ name }) => name)).toEqual(['side-view', 'feet', 'knee']);
    const none = sheet({ found: null, left: null, plans: [], measurements: [], nextOn: [] });
    expect(wordsOf(none)).toContain('No position has been measured yet.');
    expect(figuresOf(none)).toEqual([]);
    expect(headings(none)).toEqual(['Position', 'How to read this']);
  });

  it('draws no leg that was not measured or would not reach, and says so', () => {
    const notMeasured = figuresOf(sheet({ plans: [], measurements: [] }));
    expect(notMeasured.map(({ name }) => name)).toEqual(['side-view']);
    expect(notMeasured[0]?.drawing.description).toContain('No leg is drawn: it was not measured.');
    const tooHigh = figuresOf(sheet({ left: positionFacts({ ...found, saddleHeightMm: 900 }) }));
    expect(tooHigh[0]?.drawing.description).toContain('Where a leg is missing it would not reach the pedal.');
    expect(tooHigh[0]?.drawing.svg).not.toContain('left knee');
  });

  it('is a draft until it is signed', () => {
    expect(sheet({ signedOn: null, contentHash: null }).about).toContain('Draft: not signed yet');
    expect(sheet().about).toContain('Signed on 2 March 2026');
  });

  it('tells the rider what was chosen, the studio also why and from what', () => {
    const because = 'Most of the effect, and it can be undone.';
    expect(wordsOf(sheet())).toContain(
      'Left: rear plate 24, the cleat 32 mm back to 173 mm from the heel end',
    );
    expect(wordsOf(sheet())).not.toContain(because);
    expect(wordsOf(sheet({}, studio))).toContain(because);
    expect(wordsOf(sheet({}, studio))).toContain('Formula version');
    expect(headings(sheet())).not.toContain('Measured');
    expect(rowOf(sheet({}, studio), 'Thigh, left')).toEqual([
      'Thigh, left',
      '434 mm',
      '± 11.4 mm',
      'calliper',
    ]);
    expect(wordsOf(sheet({}, studio))).toContain(sheetFacts().contentHash);
    // The plan's cautions go to both.
    expect(wordsOf(sheet())).toContain('re-measure at follow-up');
  });

  it('advises by how far a cleat went, and of the bolts only when one did', () => {
    expect(wordsOf(sheet())).toContain('take 3 weeks');
    const unmoved = sheet({ left: positionFacts({ ...found, saddleHeightMm: 735 }) });
    expect(wordsOf(unmoved)).toContain('take 2 weeks');
    expect(wordsOf(unmoved)).not.toContain('cleat bolts');
    const far = sheet({ left: positionFacts({ ...left, cleatBehindMth1LeftMm: 45 }) });
    expect(wordsOf(far)).toContain('take 4 weeks');
    expect(wordsOf(far)).toContain('call emergency services');
  });

  it('tells of shoe work with its cautions, the studio also who signed and why it was given up', () => {
    const work: FitSheetFacts['shoeWorks'][number] = {
      ...{
        shoe: 'Summer shoes',
        way: 'arch_base_four_bolt',
        fixing: 'drilled_and_bonded',
        state: 'collected',
      },
      consent: { signedName: 'Robin Rider', on: '2026-03-02', textVersion: '1' },
      ...{ begunOn: '2026-03-02', curesUntil: '2026-03-03', abandonedBecause: null },
      torqueNm: { left: { first: 5, again: null }, right: { first: 5.5, again: null } },
    };
    const done = sheet({ shoeWorks: [work] });
    expect(headings(done).slice(2, 4)).toEqual(['Cleat plan', 'Shoe work']);
    expect(wordsOf(done)).toContain(
      'Summer shoes, left and right: arch base four bolt, drilled and bonded on 2 March 2026. Time to cure: until 3 March',
    );
    for (const caution of [
      'cannot be undone',
      'likely void',
      'at a standstill',
      'again after the first ride',
    ]) {
      expect(wordsOf(done)).toContain(caution);
    }
    expect(rowOf(done, 'Summer shoes, right')).toEqual(['Summer shoes, right', '5.5 N·m', '–']);
    expect(wordsOf(done)).not.toContain('Consent signed');
    expect(wordsOf(sheet({ shoeWorks: [work] }, studio))).toContain(
      'Consent signed by Robin Rider on 2 March 2026, text version 1.',
    );

    const unfinished = { ...work, state: 'to_collect' } as const;
    expect(wordsOf(sheet({ shoeWorks: [unfinished] }))).toContain('do not ride these shoes');
    const given = { ...work, state: 'abandoned', abandonedBecause: 'The sole gave way.' } as const;
    expect(wordsOf(sheet({ shoeWorks: [given] }))).not.toContain('gave way');
    expect(wordsOf(sheet({ shoeWorks: [given] }, studio))).toContain('Why: The sole gave way.');
    const untouched = { ...work, begunOn: null, state: 'abandoned', curesUntil: null } as const;
    expect(headings(sheet({ shoeWorks: [untouched] }))).not.toContain('Shoe work');
    expect(headings(sheet({ shoeWorks: [untouched] }, studio))).toContain('Shoe work');
  });

  it('says on its page all it says, with nothing of a name taken for markup', () => {
    const rows = sheet({ rider: '<b>Robin</b>', nextOn: ['2026-03-16'] }, studio);
    const page = fitSheetPage(rows);
    const text = page
      .replace(/<[^>]+>/g, '\n')
      .replace(/&lt;/g, '<')
      .replace(/&gt;/g, '>')
      .replace(/&quot;/g, '"')
      .replace(/&#39;/g, "'")
      .replace(/&amp;/g, '&');
    for (const words of [...rows.about, ...wordsOf(rows).split('\n')]) expect(text).toContain(words);
    expect(page).not.toContain('<b>Robin');
    expect(page).toMatch(/^<!doctype html>\s*<html lang="en">/);
    expect(page).not.toMatch(/<script|src=|href=/);
  });
});

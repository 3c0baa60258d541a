import { describe, expect, it } from '@jest/globals';
import { cleatPlan, cleatWays, mountedHardware } from '@studio/fit-math';
import { afterShoeWork, fixings } from '@studio/shoe-work';
import {
  adviceFor,
  adviceStages,
  adviceVersion,
  buildFitSheet,
  figuresOf,
  fitSheetPage,
  type FitSheetFacts,
  type Sheet,
} from './index.js';
import { sheetWords } from './words/index.js';
import { found, inputs, left, positionFacts, sheetFacts } from './testing/facts.js';

const rider = { audience: 'rider', lengths: 'mm', language: 'en' } as const;
const studio = { audience: 'studio', lengths: 'mm_and_inch', language: 'en' } as const;
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

  it('takes what was written for this rider in place of what is suggested', () => {
    const written = wordsOf(sheet({ advice: ['Ride only indoors for ten days.'] }));
    expect(written).toContain('Ride only indoors for ten days.');
    expect(written).not.toContain('take 3 weeks');
  });

  it('shows amendments with who wrote them, and when', () => {
    const amendments = [{ on: '2026-03-05', writtenBy: 'Kim Fitter', text: 'Setback is 58 mm.' }];
    expect(sheet({ amendments }).about).toContain('Amended on 5 March 2026: see “Amendments”');
    expect(wordsOf(sheet({ amendments }))).toContain('5 March 2026, Kim Fitter: Setback is 58 mm.');
  });

  it('tells of shoe work with its cautions, the studio also who signed and why it was given up', () => {
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

describe('a sheet in German', () => {
  const german = { audience: 'studio', lengths: 'mm_and_inch', language: 'de' } as const;
  const written = buildFitSheet(
    sheetFacts({
      shoeWorks: [work],
      plans: sheetFacts().plans.map((plan) => ({ ...plan, chosenBecause: null })),
      amendments: [{ on: '2026-03-05', writtenBy: 'Kim Fitter', text: '58 mm.' }],
    }),
    german,
  );

  it('writes numbers, days and names its way', () => {
    expect(written.language).toBe('de');
    expect(rowOf(written, 'Sattelhöhe')).toEqual([
      'Sattelhöhe',
      '740 mm (29,13 in)',
      '728 mm (28,66 in)',
      '−12 mm',
    ]);
    expect(written.about).toContain('Unterschrieben am 2. März 2026');
    expect(wordsOf(written)).toContain(
      'Links: Versatzplatte nach hinten, 24 mm, die Schuhplatte 32 mm zurück',
    );
    expect(rowOf(written, 'Oberschenkel, links')?.at(-1)).toBe('Messschieber');
    expect(fitSheetPage(written)).toContain('<html lang="de">');
  });

  it('has no English left in it', () => {
    const words = [wordsOf(written), ...figuresOf(written).map(({ drawing }) => drawing.svg)].join('\n');
    expect(words).not.toMatch(/\b(the|saddle|cleat|measured|found|left|foot|with|of)\b(?![^<]*>)/i);
  });

  it('knows every part, and every caution that a chosen option can carry', () => {
    const { partNames, cautions, shoeWork } = sheetWords.de;
    for (const part of [...mountedHardware, ...cleatWays.map(({ id }) => id)])
      expect(partNames).toHaveProperty(part);
    const carried = cleatPlan({ ...inputs, cleatFromHeelMm: 212 }).options.flatMap(
      (option) => option.cautions,
    );
    expect(new Set(carried.map(({ code }) => code)).size).toBeGreaterThan(3);
    for (const { code } of carried) expect(cautions).toHaveProperty(code);
    for (const fixing of fixings) expect(partNames).toHaveProperty(fixing);
    for (const { code } of afterShoeWork) expect(shoeWork.after).toHaveProperty(code);
  });
});

describe('advice', () => {
  it.each([
    [[], 'small_change'],
    [[0, 0], 'cleats_kept'],
    [[0, -4], 'small_change'],
    [[9.9, 10], 'medium_change'],
    [[-30, 2], 'large_change'],
  ] as const)('for cleats moved by %j mm is of the stage %s', (moved, stage) => {
    const advice = adviceFor(moved, 'en');
    expect(advice).toMatchObject({ stage, adviceVersion, language: 'en' });
    expect(advice.items.at(-1)).toContain('call emergency services');
  });

  it('says as much in every language, and grows with the change', () => {
    for (const { items } of adviceStages)
      for (const text of items) expect(text.de.length).toBeGreaterThan(text.en.length / 2);
    const counts = adviceStages.map(({ items }) => items.length);
    expect(counts).toEqual([...counts].sort((one, other) => one - other));
  });
});

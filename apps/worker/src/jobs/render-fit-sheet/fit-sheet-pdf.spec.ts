import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { buildFitSheet, figuresOf, type Sheet } from '@studio/fit-sheet';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { sheetFacts } from '../../../../../libs/fit-sheet/src/testing/facts.js';
import { fitSheetPdf } from './fit-sheet-pdf.js';

const hasPoppler = (() => {
  try {
    execFileSync('pdftotext', ['-v'], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
})();

const facts = sheetFacts({
  amendments: [{ on: '2026-03-05', writtenBy: 'Kim Fitter', text: 'The stem is 100 mm.' }],
});
const sheet = buildFitSheet(facts, { audience: 'studio', lengths: 'mm_and_inch', language: 'en' });
const german = buildFitSheet(facts, { audience: 'rider', lengths: 'mm', language: 'de' });
const flat = (text: string): string => text.replace(/\s+/g, '');

(hasPoppler ? describe : describe.skip)(
  'the fit sheet on paper, read by poppler (left out without it)',
  () => {
    let folder: string;
    let file: string;
    const run = (program: string, ...options: string[]) =>
      execFileSync(program, options, { encoding: 'utf8' });

    beforeAll(async () => {
      folder = mkdtempSync(path.join(tmpdir(), 'fit-sheet-'));
      file = path.join(folder, 'a4.pdf');
      writeFileSync(file, await fitSheetPdf(sheet, 'a4'));
      writeFileSync(path.join(folder, 'letter.pdf'), await fitSheetPdf(german, 'letter'));
    });
    afterAll(() => {
      rmSync(folder, { recursive: true });
    });

    it('has title, language, tags and its paper', () => {
      const info = run('pdfinfo', file);
      expect(info).toMatch(/Title:\s+Fit record: Robin Rider – Road bike, Summer shoes/);
      expect(info).toMatch(/Tagged:\s+yes/);
      expect(info).toMatch(/Page size:\s+595\.28 x 841\.89 pts \(A4\)/);
      expect(run('pdfinfo', path.join(folder, 'letter.pdf'))).toMatch(
        /Page size:\s+612 x 792 pts \(letter\)/,
      );
      const structure = run('pdfinfo', '-struct-text', file);
      for (const part of ['H1', 'H2', 'Table', 'TH', 'TD', 'LI', 'Figure']) expect(structure).toContain(part);
      expect(structure.match(/Figure/g)).toHaveLength(3);
    });

    it.each([
      ['a4', sheet, 'Page 1 of'],
      ['letter', german, 'Seite 1 von'],
    ])('says what the sheet says, in its order: %s', (name, written, page) => {
      const text = flat(run('pdftotext', '-raw', path.join(folder, `${name}.pdf`), '-'));
      let from = 0;
      for (const words of wordsInOrder(written)) {
        const at = text.indexOf(flat(words), from);
        expect([words, at]).not.toEqual([words, -1]);
        from = Math.max(from, at);
      }
      expect(text).toContain(flat(page));
    });

    it.each([
      ['a4', sheet],
      ['letter', german],
    ])('has every word of the drawings: %s', (name, written) => {
      const text = flat(run('pdftotext', '-raw', path.join(folder, `${name}.pdf`), '-'));
      for (const { drawing } of figuresOf(written)) {
        const labels = [...drawing.svg.matchAll(/<text[^>]*>([^<]*)<\/text>/g)].map(
          ([, words = '']) => words,
        );
        expect(labels.length).toBeGreaterThan(5);
        for (const words of labels) expect(text).toContain(flat(words));
      }
    });

    it('keeps everything on its pages', () => {
      for (const name of ['a4', 'letter']) {
        const boxes = run('pdftotext', '-bbox', path.join(folder, `${name}.pdf`), '-');
        const pages = boxes.split('<page ').slice(1);
        expect(pages.length).toBeGreaterThan(1);
        for (const page of pages) {
          const [, width, height] = /width="([\d.]+)" height="([\d.]+)"/.exec(page)?.map(Number) ?? [];
          for (const [, xMin, yMin, xMax, yMax] of page.matchAll(
            /xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)"/g,
          )) {
            expect(Number(xMin)).toBeGreaterThan(40);
            expect(Number(xMax)).toBeLessThan((width ?? 0) - 40);
            expect(Number(yMin)).toBeGreaterThan(20);
            expect(Number(yMax)).toBeLessThan((height ?? 0) - 15);
          }
        }
      }
    });
  },
);

function wordsInOrder({ title, about, sections }: Sheet): string[] {
  return [
    title,
    ...about,
    ...sections.flatMap(({ heading, blocks }) => [
      heading,
      ...blocks.flatMap((block) => {
        if (block.kind === 'paragraph') return [block.text];
        if (block.kind === 'list') return [...block.items];
        return block.kind === 'figure' ? [block.drawing.title] : [];
      }),
    ]),
  ];
}

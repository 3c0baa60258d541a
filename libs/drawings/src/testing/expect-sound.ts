import { expect } from '@jest/globals';
import { SaxesParser } from 'saxes';
import type { Drawing } from '../drawing.js';
import { widthOf } from '../style.js';

interface Text {
  readonly words: string;
  readonly x: number;
  readonly y: number;
  readonly size: number;
  readonly anchor: string;
}

/** @throws when it is no well-formed XML */
export function textsOf(svg: string): Text[] {
  const texts: Text[] = [];
  let words: string | null = null;
  const parser = new SaxesParser();
  parser.on('error', (error) => {
    throw error;
  });
  parser.on('opentag', ({ name }) => {
    if (name === 'text') words = '';
  });
  parser.on('text', (text) => {
    if (words !== null) words += text;
  });
  parser.on('closetag', ({ name, attributes }) => {
    if (name !== 'text' || words === null) return;
    texts.push({
      words,
      x: Number(attributes['x']),
      y: Number(attributes['y']),
      size: Number(attributes['font-size'] ?? 12),
      anchor: attributes['text-anchor'] ?? 'start',
    });
    words = null;
  });
  parser.write(svg).close();
  return texts;
}

/** Holds for every drawing: sound XML, its text alternative, nothing outside the paper, no words on other words. */
export function expectSound(drawing: Drawing): void {
  expect(drawing.svg).not.toMatch(/NaN|Infinity|undefined/);
  expect(drawing.svg).toMatch(/^<svg [^>]*role="img"[^>]*><title>[^<]+<\/title><desc>[^<]+<\/desc>/);
  // Whoever gives it another size takes these away.
  expect(drawing.svg).toContain(
    ` width="${Math.round(drawing.widthPx)}" height="${Math.round(drawing.heightPx)}"`,
  );
  expect(drawing.data.rows.every((row) => row.length === drawing.data.columns.length)).toBe(true);
  const places = [...drawing.svg.matchAll(/ (?:x|x1|cx)="([^"]*)"[^>]*? (?:y|y1|cy)="([^"]*)"/g)];
  const within = (text: string | undefined, most: number): boolean =>
    Number(text) >= 0 && Number(text) <= most;
  expect(places.filter(([, x, y]) => !within(x, drawing.widthPx) || !within(y, drawing.heightPx))).toEqual(
    [],
  );
  const boxes = textsOf(drawing.svg).map(({ words, x, y, size, anchor }) => {
    // Letters are half an em wide on average; what is set tighter than that would touch.
    const width = (widthOf(words, size) * 0.5) / 0.6;
    const left = anchor === 'middle' ? x - width / 2 : anchor === 'end' ? x - width : x;
    return { words, left, right: left + width, top: y - 0.7 * size, bottom: y };
  });
  for (const [index, one] of boxes.entries()) {
    for (const other of boxes.slice(index + 1)) {
      const apart =
        one.right <= other.left ||
        other.right <= one.left ||
        one.bottom <= other.top ||
        other.bottom <= one.top;
      if (!apart) throw new Error(`“${one.words}” lies on “${other.words}”`);
    }
  }
}

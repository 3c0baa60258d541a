import { marginX } from '../drawing.js';
import { label } from '../svg.js';
import { colour, smallSize, widthOf } from '../style.js';

const lineHeight = 15;

/** What a picture says of itself, below it, broken into lines that fit. */
export function notesBelow(
  notes: readonly string[],
  widthPx: number,
): { readonly heightPx: number; readonly from: (y: number) => string[] } {
  const lines = notes.flatMap((note) => broken(note, widthPx - 2 * marginX));
  return {
    heightPx: lines.length * lineHeight,
    from: (y) =>
      lines.map((words, index) =>
        label(marginX, y + index * lineHeight, words, { 'font-size': smallSize, fill: colour.middle }),
      ),
  };
}

function broken(note: string, width: number): string[] {
  const lines: string[] = [];
  for (const word of note.split(' ')) {
    const longer = lines.length === 0 ? word : `${lines.at(-1) ?? ''} ${word}`;
    if (lines.length > 0 && widthOf(longer, smallSize) <= width) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines;
}

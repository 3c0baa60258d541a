import { element, escaped, label } from './svg.js';
import { colour, font, smallSize, textSize, widthOf } from './style.js';

/** The numbers a drawing was made from, row by row. */
export interface Table {
  readonly columns: readonly string[];
  readonly rows: readonly (readonly (string | number | null)[])[];
}

export interface Drawing {
  /** A whole SVG document; it carries title and description for who cannot see it. */
  readonly svg: string;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly title: string;
  /** Whom it speaks of; a line of its own below the title. */
  readonly subtitle: string;
  /** The text alternative: what the drawing shows, in words. */
  readonly description: string;
  readonly data: Table;
}

const titleSize = 15;
export const marginX = 24;
/** Where a drawing's own part begins, below its title. */
export const bodyTop = 60;

/** Puts a drawing together: title on top, paper behind, text alternative inside. */
export function drawing(parts: {
  widthPx: number;
  heightPx: number;
  title: string;
  subtitle: string;
  description: string;
  data: Table;
  body: readonly string[];
}): Drawing {
  const { widthPx, heightPx, title, subtitle, description, data, body } = parts;
  const svg = element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      width: widthPx,
      height: heightPx,
      viewBox: `0 0 ${widthPx} ${heightPx}`,
      role: 'img',
      'font-family': font,
      'font-size': textSize,
      fill: colour.ink,
    },
    element('title', {}, escaped(subtitle === '' ? title : `${title}: ${subtitle}`)),
    element('desc', {}, escaped(description)),
    element('rect', { width: widthPx, height: heightPx, fill: colour.paper }),
    label(marginX, 30, shortened(title, widthPx - 2 * marginX), {
      'font-size': titleSize,
      'font-weight': 'bold',
    }),
    label(marginX, 47, shortened(subtitle, widthPx - 2 * marginX, smallSize), {
      'font-size': smallSize,
      fill: colour.middle,
    }),
    ...body,
  );
  return { svg, widthPx, heightPx, title, subtitle, description, data };
}

/** What fits into the width; the whole stands in the text alternative. */
export function shortened(words: string, width: number, size: number = titleSize): string {
  if (widthOf(words, size) <= width) return words;
  return `${words.slice(0, Math.floor(width / (size * 0.6)) - 1).trimEnd()}…`;
}

/**
 * Colours that stay apart in grey print: each is a step of lightness of its own, and nothing is told by hue alone.
 */
export const colour = {
  ink: '#17222d',
  strong: '#1f5a6b',
  middle: '#74838f',
  faint: '#bcc6cd',
  band: '#e6ebee',
  paper: '#ffffff',
} as const;

export const font = 'Helvetica, Arial, DejaVu Sans, sans-serif';
export const textSize = 12;
export const smallSize = 11;

/** How wide a text comes out at most, in the units of the drawing: wide letters of the usual fonts are 0.6 em. */
export const widthOf = (words: string, size: number): number => words.length * size * 0.6;

import { createRequire } from 'node:module';

const { resolve } = createRequire(import.meta.url);

/** DejaVu covers the Latin, Greek and Cyrillic of European names. */
export const pdfFonts = {
  plain: resolve('dejavu-fonts-ttf/ttf/DejaVuSans.ttf'),
  bold: resolve('dejavu-fonts-ttf/ttf/DejaVuSans-Bold.ttf'),
};

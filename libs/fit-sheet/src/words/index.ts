import { de } from './de.js';
import { en } from './en.js';
import type { SheetLanguage, SheetWords } from './sheet-words.js';

export { sheetLanguages, type SheetLanguage, type SheetWords } from './sheet-words.js';

export const sheetWords: Readonly<Record<SheetLanguage, SheetWords>> = { en, de };

/** `rear_plate_24` → `rear plate 24`, or its name in the language. */
export const partWords = ({ partNames }: SheetWords, id: string): string =>
  partNames[id] ?? id.replaceAll('_', ' ');

/** A true minus, and the language's decimal mark. */
export const numberWords = ({ decimalMark }: SheetWords, value: number, digits = 0): string =>
  String(Number(value.toFixed(digits)))
    .replace('-', '−')
    .replace('.', decimalMark);

export const signedWords = (words: SheetWords, value: number, digits = 0): string =>
  `${Number(value.toFixed(digits)) > 0 ? '+' : ''}${numberWords(words, value, digits)}`;

/** `2026-03-02` → `2 March 2026`. */
export function dayWords({ day: written, months }: SheetWords, day: string): string {
  const [year = 0, month = 1, date = 1] = day.split('-').map(Number);
  return written(date, months[month - 1] ?? '', year);
}

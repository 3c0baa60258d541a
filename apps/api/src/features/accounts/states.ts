import type { DocumentKind } from '@studio/database';
import type { DocumentAction } from './accounts.errors.js';

export const shownStates = ['draft', 'issued', 'credited', 'discarded'] as const;
/** As the table has them, and `credited` for a receipt of which credit notes leave nothing. */
export type ShownState = (typeof shownStates)[number];

/** What may be done with a document. One that is issued is corrected by others. */
export function allowedActions(document: {
  kind: DocumentKind;
  state: ShownState;
}): readonly DocumentAction[] {
  if (document.state === 'draft') return ['change', 'issue', 'discard'];
  if (document.state !== 'issued') return [];
  return { quote: ['make_receipt'] as const, receipt: ['credit'] as const, credit_note: [] }[document.kind];
}

/** Series, year and number as printed and quoted, like R-2026-00017. */
export function numberText(document: {
  series: string;
  year: number | null;
  number: number | null;
}): string | null {
  const { series, year, number } = document;
  return year === null || number === null ? null : `${series}-${year}-${String(number).padStart(5, '0')}`;
}

import type { ImportedFields } from '@studio/database';
import { plainToInstance } from 'class-transformer';
import { validateSync } from 'class-validator';
import type { FieldProblem } from '../../http/problem.js';
import { fieldProblems } from '../../http/validation.pipe.js';
import { CreateClientRequest, e164 } from '../clients/index.js';
import type { ImportField } from './import-fields.js';

export const dayForms = ['year_first', 'day_first', 'month_first'] as const;
export type DayForm = (typeof dayForms)[number];

export interface Mapping {
  readonly columns: Partial<Record<ImportField, string>>;
  readonly dayForm: DayForm;
}

/** What a row says of a client, held to the same rules as a client the desk takes on; or what is wrong with it. */
export function readRow(
  headers: readonly string[],
  cells: readonly string[],
  { columns, dayForm }: Mapping,
): { fields: ImportedFields | null; problems: FieldProblem[] } {
  if (cells.length !== headers.length) {
    const message = `has ${cells.length} cells where the headers are ${headers.length}`;
    return { fields: null, problems: [{ field: 'row', message }] };
  }
  const said = Object.fromEntries(
    Object.entries(columns)
      .map(([field, header]) => [field, cellText(cells[headers.indexOf(header)] ?? '')] as const)
      .filter(([, text]) => text !== '')
      .map(([field, text]) => [field, valueOf(field as ImportField, text, dayForm)]),
  );
  const request = plainToInstance(CreateClientRequest, said);
  const problems = validateSync(request, { stopAtFirstError: true }).flatMap((error) => fieldProblems(error));
  if (problems.length > 0) return { fields: null, problems };
  const phoneE164 = e164(request.phone ?? null);
  return { fields: { ...(request as ImportedFields), ...(phoneE164 !== null && { phoneE164 }) }, problems };
}

/** As exports write a text that a spreadsheet would take for a formula: the apostrophe before it is no part of it. */
const cellText = (cell: string): string => cell.trim().replace(/^'(?=[=+\-@])/, '');

function valueOf(field: ImportField, text: string, dayForm: DayForm): unknown {
  switch (field) {
    case 'bornOn':
      return dayOf(text, dayForm);
    case 'tags':
      return [...new Set(text.split(/[,;|]/).map(tagOf))].filter((tag) => tag !== '');
    case 'doNotContact':
      return truths.get(text.toLowerCase()) ?? text;
    default:
      return text;
  }
}

/** 29.2.1984, 29/02/1984 or 2/29/1984 as 1984-02-29; what is none of them is left for the check to name. */
function dayOf(text: string, form: DayForm): string {
  const parts = /^(\d{1,4})[-./ ](\d{1,2})[-./ ](\d{1,4})$/.exec(text)?.slice(1);
  if (!parts) return text;
  const [first = '', second = '', third = ''] = parts;
  const [year, month, day] = {
    year_first: [first, second, third],
    day_first: [third, second, first],
    month_first: [third, first, second],
  }[form] as [string, string, string];
  return `${year}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`;
}

const tagOf = (text: string): string =>
  text
    .trim()
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '_')
    .replaceAll(/^_+|_+$/g, '');

const truths = new Map<string, boolean>([
  ...['yes', 'true', '1', 'x', 'ja', 'oui', 'sí'].map((word) => [word, true] as const),
  ...['no', 'false', '0', 'nein', 'nej', 'non'].map((word) => [word, false] as const),
]);

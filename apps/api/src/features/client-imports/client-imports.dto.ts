import { ApiProperty } from '@nestjs/swagger';
import {
  importDecisions,
  importRowStates,
  importStates,
  type ImportDecision,
  type ImportRowState,
  type ImportState,
} from '@studio/database';
import { EnumField, NestedField, TextField } from '../../http/fields.js';
import { PageQuery } from '../../http/paging.js';
import { FieldProblem } from '../../http/problem.js';
import { importActionNames, type ImportAction } from './import-actions.js';
import { dayForms, type DayForm } from './read-row.js';

const header = (example: string) => TextField({ optional: true, max: 4000, example });

/** Which column holds what, by its header. */
export class ImportColumns {
  @TextField({ max: 4000, example: 'First name' })
  givenName: string;

  @TextField({ max: 4000, example: 'Last name' })
  familyName: string;

  @header('Mail')
  email?: string;

  @header('Phone')
  phone?: string;

  @header('Born')
  bornOn?: string;

  @header('Groups')
  tags?: string;

  @header('Remark')
  note?: string;

  @header('No contact')
  doNotContact?: string;
}

export class MapImportRequest {
  @NestedField(() => ImportColumns)
  columns: ImportColumns;

  @EnumField(dayForms, {
    optional: true,
    description: 'How days are written: 1984-02-29 (when absent), 29.02.1984 or 2/29/1984.',
  })
  dayForm?: DayForm;
}

export class DecideRowRequest {
  @EnumField(importDecisions, {
    description:
      '`unless_duplicate`: taken on unless a client is likely the same; `import`: taken on all the same; `leave_out`.',
  })
  decision: ImportDecision;
}

export class ListImportRowsQuery extends PageQuery {
  @EnumField(importRowStates, { optional: true })
  state?: ImportRowState;
}

export class ImportCounts {
  @ApiProperty({ type: 'integer', example: 0 })
  unread: number;

  @ApiProperty({ type: 'integer', example: 118 })
  ready: number;

  @ApiProperty({ type: 'integer', example: 2 })
  invalid: number;

  @ApiProperty({ type: 'integer', example: 0 })
  imported: number;

  @ApiProperty({ type: 'integer', example: 0, name: 'leftOut' })
  leftOut: number;
}

export class SuggestedColumns {
  @ApiProperty({ required: false, example: 'First name' })
  givenName?: string;

  @ApiProperty({ required: false, example: 'Last name' })
  familyName?: string;

  @ApiProperty({ required: false, example: 'Mail' })
  email?: string;

  @ApiProperty({ required: false, example: 'Phone' })
  phone?: string;

  @ApiProperty({ required: false, example: 'Born' })
  bornOn?: string;

  @ApiProperty({ required: false, example: 'Groups' })
  tags?: string;

  @ApiProperty({ required: false, example: 'Remark' })
  note?: string;

  @ApiProperty({ required: false, example: 'No contact' })
  doNotContact?: string;
}

export class ClientImportResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ enum: importStates })
  state: ImportState;

  @ApiProperty({ description: 'As it was read.', example: 'utf-8' })
  charset: string;

  @ApiProperty({ description: 'As it was read.', example: ';' })
  separator: string;

  @ApiProperty({ type: [String], example: ['First name', 'Last name', 'Mail'] })
  headers: string[];

  @ApiProperty({ type: SuggestedColumns, description: 'As chosen; before that, as the headers suggest.' })
  columns: SuggestedColumns;

  @ApiProperty({ type: ImportCounts, description: 'Rows by what became of them.' })
  rows: ImportCounts;

  @ApiProperty({ format: 'date-time' })
  uploadedAt: string;

  @ApiProperty({ type: String, format: 'date-time', nullable: true })
  doneAt: string | null;

  @ApiProperty({ enum: importActionNames, isArray: true, description: 'What the state allows.' })
  allowed: ImportAction[];

  @ApiProperty({ type: 'integer', example: 1 })
  version: number;
}

export class ClientImportPage {
  @ApiProperty({ type: [ClientImportResponse] })
  items: ClientImportResponse[];

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  next: string | null;
}

export class ImportedFieldsResponse {
  @ApiProperty({ example: 'Marta' })
  givenName: string;

  @ApiProperty({ example: 'Ferreira' })
  familyName: string;

  @ApiProperty({ required: false, example: 'marta@riders.example' })
  email?: string;

  @ApiProperty({ required: false, example: '+45 20 12 34 56' })
  phone?: string;

  @ApiProperty({ required: false, format: 'date', example: '1984-02-29' })
  bornOn?: string;

  @ApiProperty({ required: false, type: [String], example: ['team_harbour'] })
  tags?: readonly string[];

  @ApiProperty({ required: false, example: 'Parks in the yard.' })
  note?: string;

  @ApiProperty({ required: false })
  doNotContact?: boolean;
}

export class ImportRowResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ type: 'integer', description: '1 for the first row after the headers.', example: 1 })
  row: number;

  @ApiProperty({ enum: importRowStates })
  state: ImportRowState;

  @ApiProperty({ enum: importDecisions })
  decision: ImportDecision;

  @ApiProperty({ type: [String], description: 'As written; empty once imported.', example: ['Marta'] })
  cells: string[];

  @ApiProperty({ type: ImportedFieldsResponse, nullable: true, description: 'As it would be taken on.' })
  fields: ImportedFieldsResponse | null;

  @ApiProperty({ type: [FieldProblem] })
  problems: FieldProblem[];

  @ApiProperty({
    type: 'integer',
    nullable: true,
    description: 'An earlier row with the same address or number.',
    example: null,
  })
  sameAsRow: number | null;

  @ApiProperty({
    type: String,
    format: 'uuid',
    nullable: true,
    description: 'The client it became; before that, and of a row left out, the client it is likely to be.',
  })
  clientId: string | null;
}

export class ImportRowPage {
  @ApiProperty({ type: [ImportRowResponse], description: 'In the order of the list.' })
  items: ImportRowResponse[];

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  next: string | null;
}

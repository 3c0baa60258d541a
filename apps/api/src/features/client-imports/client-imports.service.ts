import { Injectable } from '@nestjs/common';
import {
  likelyClients,
  orderJob,
  recordAudit,
  TenantTransaction,
  type ImportedFields,
  type SqlRunner,
  type TenantContext,
} from '@studio/database';
import { pageOf, pageSize, type PageQuery } from '../../http/paging.js';
import { found, InvalidRequest, StaleVersion } from '../../http/problem.js';
import type {
  ClientImportPage,
  ClientImportResponse,
  DecideRowRequest,
  ImportRowPage,
  ImportRowResponse,
  ListImportRowsQuery,
  MapImportRequest,
} from './client-imports.dto.js';
import { ImportActionImpossible } from './client-imports.errors.js';
import * as queries from './client-imports.queries.js';
import { importActionsIn, type ImportAction } from './import-actions.js';
import { suggestColumns } from './import-fields.js';
import { readCsv } from './read-csv.js';
import { readRow, type Mapping } from './read-row.js';

const allRows = 1_000_000;

@Injectable()
export class ClientImportsService {
  constructor(private readonly transaction: TenantTransaction) {}

  async upload(ctx: TenantContext, bytes: Buffer): Promise<ClientImportResponse> {
    const { studioId } = ctx;
    const { rows, ...list } = readCsv(bytes);
    return this.transaction.runOnce(ctx, async (tx) => {
      const id = await queries.insertImport(tx, { studioId, ...list, uploadedBy: ctx.userId as string });
      await queries.insertRows(tx, { studioId, importId: id }, rows);
      await recordAudit(tx, ctx, { action: 'client-imports.upload', recordId: id });
      return toResponse(found(await queries.findImport(tx, { studioId, id })));
    });
  }

  async list(ctx: TenantContext, query: PageQuery): Promise<ClientImportPage> {
    const limit = pageSize(query);
    const page = { studioId: ctx.studioId, after: query.after ?? null, limit: limit + 1 };
    const rows = await this.transaction.read(ctx, (sql) => queries.listImports(sql, page));
    return pageOf(rows.map(toResponse), limit);
  }

  async get(ctx: TenantContext, id: string): Promise<ClientImportResponse> {
    const key = { studioId: ctx.studioId, id };
    return toResponse(found(await this.transaction.read(ctx, (sql) => queries.findImport(sql, key))));
  }

  /** Say which column holds what; every row is read anew by it. */
  async map(
    ctx: TenantContext,
    id: string,
    version: number,
    request: MapImportRequest,
  ): Promise<ClientImportResponse> {
    const { studioId } = ctx;
    const mapping: Mapping = { columns: { ...request.columns }, dayForm: request.dayForm ?? 'year_first' };
    return this.transaction.run(ctx, async (tx) => {
      const { headers } = await possible(tx, { studioId, id }, 'map');
      checkHeaders(headers, mapping);
      if (!(await queries.updateImport(tx, { studioId, id, version }, { state: 'ready', mapping }))) {
        throw new StaleVersion();
      }
      const page = { studioId, importId: id, state: null, after: null, limit: allRows };
      const rows = (await queries.listRows(tx, page)).map((row) => ({
        ...row,
        ...readRow(headers, row.cells, mapping),
      }));
      const seen = new Map<string, number>();
      await queries.writeRows(
        tx,
        { studioId, importId: id },
        rows.map(({ id: rowId, row, fields, problems }) => {
          return { id: rowId, fields, problems, sameAsRow: fields && firstAlike(seen, fields, row) };
        }),
      );
      await recordAudit(tx, ctx, { action: 'client-imports.map', recordId: id });
      return toResponse(found(await queries.findImport(tx, { studioId, id })));
    });
  }

  /** Before the import, the client each row is likely to be is looked for now. */
  async rows(ctx: TenantContext, id: string, query: ListImportRowsQuery): Promise<ImportRowPage> {
    const { studioId } = ctx;
    const limit = pageSize(query);
    const { state = null, after = null } = query;
    return this.transaction.read(ctx, async (sql) => {
      found(await queries.findImport(sql, { studioId, id }));
      const page = { studioId, importId: id, state, after, limit: limit + 1 };
      const { items, next } = pageOf(await queries.listRows(sql, page), limit);
      return { items: await withLikely(sql, studioId, items), next };
    });
  }

  async decide(
    ctx: TenantContext,
    rowId: string,
    { decision }: DecideRowRequest,
  ): Promise<ImportRowResponse> {
    const { studioId } = ctx;
    return this.transaction.run(ctx, async (tx) => {
      const { importId } = found(await queries.findRow(tx, { studioId, id: rowId }));
      await possible(tx, { studioId, id: importId }, 'decide');
      await queries.decideRow(tx, { studioId, id: rowId }, decision);
      await recordAudit(tx, ctx, { action: 'client-imports.decide', recordId: importId });
      const { importId: _, ...row } = found(await queries.findRow(tx, { studioId, id: rowId }));
      return found((await withLikely(tx, studioId, [row]))[0] ?? null);
    });
  }

  /** From now on the worker takes the rows on. */
  async order(ctx: TenantContext, id: string, version: number): Promise<ClientImportResponse> {
    const { studioId } = ctx;
    return this.transaction.run(ctx, async (tx) => {
      await possible(tx, { studioId, id }, 'order');
      const fields = { state: 'ordered', orderedBy: ctx.userId as string } as const;
      if (!(await queries.updateImport(tx, { studioId, id, version }, fields))) throw new StaleVersion();
      await orderJob(tx, { studioId, job: 'import-clients', payload: { clientImportId: id } });
      await recordAudit(tx, ctx, { action: 'client-imports.order', recordId: id });
      return toResponse(found(await queries.findImport(tx, { studioId, id })));
    });
  }

  async delete(ctx: TenantContext, id: string, version: number): Promise<void> {
    const { studioId } = ctx;
    await this.transaction.run(ctx, async (tx) => {
      await possible(tx, { studioId, id }, 'delete');
      if (!(await queries.deleteImport(tx, { studioId, id, version }))) throw new StaleVersion();
      await recordAudit(tx, ctx, { action: 'client-imports.delete', recordId: id });
    });
  }
}

async function possible(
  sql: SqlRunner,
  key: { studioId: string; id: string },
  action: ImportAction,
): Promise<queries.ImportRecord> {
  const record = found(await queries.findImport(sql, key));
  if (!importActionsIn(record.state).includes(action)) throw new ImportActionImpossible(record.state);
  return record;
}

/** @throws InvalidRequest naming the columns the list does not have */
function checkHeaders(headers: readonly string[], { columns }: Mapping): void {
  const unknown = Object.entries(columns).filter(([, header]) => !headers.includes(header));
  if (unknown.length === 0) return;
  throw new InvalidRequest(
    unknown.map(([field]) => ({ field: `columns.${field}`, message: 'names no header of the list' })),
  );
}

/** The first row with the same address, the same number, or the same name and birth date. */
function firstAlike(seen: Map<string, number>, fields: ImportedFields, row: number): number | null {
  const { email, phoneE164, bornOn, givenName, familyName } = fields;
  const marks = [
    ...(email === undefined ? [] : [`mail ${email}`]),
    ...(phoneE164 === undefined ? [] : [`phone ${phoneE164}`]),
    ...(bornOn === undefined ? [] : [`name ${givenName} ${familyName} ${bornOn}`.toLowerCase()]),
  ];
  const before = marks.map((mark) => seen.get(mark)).filter((one) => one !== undefined);
  for (const mark of marks) if (!seen.has(mark)) seen.set(mark, row);
  return before.length === 0 ? null : Math.min(...before);
}

async function withLikely(
  sql: SqlRunner,
  studioId: string,
  rows: readonly queries.RowRecord[],
): Promise<ImportRowResponse[]> {
  const open = rows.flatMap(({ id, state, fields }) =>
    state === 'ready' && fields !== null ? [{ key: id, fields }] : [],
  );
  const likely = await likelyClients(sql, studioId, open);
  return rows.map(({ fields, ...row }) => ({
    ...row,
    fields: fields && withoutComparable(fields),
    clientId: row.clientId ?? likely.get(row.id) ?? null,
  }));
}

function withoutComparable({ phoneE164: _, ...fields }: ImportedFields): Omit<ImportedFields, 'phoneE164'> {
  return fields;
}

const toResponse = ({ mapping, ...record }: queries.ImportRecord): ClientImportResponse => ({
  ...record,
  columns: mapping?.columns ?? suggestColumns(record.headers),
  allowed: importActionsIn(record.state),
});

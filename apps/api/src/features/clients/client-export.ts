import { TenantTransaction, type TenantContext } from '@studio/database';
import { stringify } from 'csv-stringify';
import { Readable } from 'node:stream';
import type { ClientResponse } from './clients.dto.js';
import { listClients } from './clients.queries.js';

const columns = [
  'id',
  'givenName',
  'familyName',
  'email',
  'phone',
  'bornOn',
  'tags',
  'note',
  'doNotContact',
  'guardianId',
  'createdAt',
] as const;

/** Clients read at a time: what the export holds in memory, however many there are. */
const batch = 500;

/**
 * All clients as CSV (RFC 4180) in UTF-8 with a byte order mark, read while it is sent. A text that a spreadsheet would
 * take for a formula is led by an apostrophe; an import takes it off again.
 */
export function clientsCsv(transaction: TenantTransaction, ctx: TenantContext): Readable {
  const csv = stringify({
    header: true,
    columns: [...columns],
    record_delimiter: 'windows',
    bom: true,
    escape_formulas: true,
    cast: { boolean: (value) => (value ? 'yes' : 'no') },
  });
  const clients = Readable.from(allClients(transaction, ctx));
  clients.on('error', (error) => csv.destroy(error));
  return clients.pipe(csv);
}

async function* allClients(
  transaction: TenantTransaction,
  ctx: TenantContext,
): AsyncGenerator<Record<keyof ClientResponse, unknown>> {
  for (let after: string | null = null; ;) {
    const page = { studioId: ctx.studioId, name: null, tag: null, after, limit: batch };
    const rows: ClientResponse[] = await transaction.read(ctx, (sql) => listClients(sql, page));
    for (const client of rows) yield { ...client, tags: client.tags.join(',') };
    const last = rows.at(-1);
    if (!last || rows.length < batch) return;
    after = last.id;
  }
}

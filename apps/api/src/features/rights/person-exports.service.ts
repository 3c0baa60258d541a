import { Inject, Injectable } from '@nestjs/common';
import {
  hashesEqual,
  orderJob,
  orderMessage,
  readClock,
  readTenantToken,
  recordAudit,
  secretHash,
  TenantTransaction,
  type PersonExport,
  type TenantContext,
  type TenantToken,
} from '@studio/database';
import { personExportKey, SignedAddresses, type ObjectStorage, type StoredObject } from '@studio/storage';
import type { EntityManager } from 'typeorm';
import { StorageToken } from '../../http/http.module.js';
import { found, NotFound } from '../../http/problem.js';
import { PersonExportResponse } from './person-exports.dto.js';
import * as queries from './person-exports.queries.js';
import { findRequestForUpdate, findRequest } from './rights-requests.queries.js';
import { CopyNotThere, MayNotBeMailed, NotAboutACopy, RightsStepImpossible } from './rights.errors.js';

const archive = { mediaType: 'application/zip', fileName: 'everything-we-keep-about-you.zip' };

@Injectable()
export class PersonExportsService {
  constructor(
    private readonly transaction: TenantTransaction,
    @Inject(StorageToken) private readonly storage: ObjectStorage,
    private readonly addresses: SignedAddresses,
  ) {}

  /** Who asks is known by then. */
  async order(ctx: TenantContext, requestId: string): Promise<PersonExportResponse> {
    const { studioId } = ctx;
    return this.transaction.runOnce(ctx, async (tx) => {
      const request = found(await findRequestForUpdate(tx, { studioId, id: requestId }));
      if (request.kind !== 'access') throw new NotAboutACopy();
      if (request.state !== 'identity_checked') throw new RightsStepImpossible(request.state);
      const orderedBy = ctx.userId as string;
      const clientId = request.clientId as string;
      const row = await queries.insertExport(tx, { studioId, requestId, clientId, orderedBy });
      await orderJob(tx, { studioId, job: 'export-person', payload: { personExportId: row.id } });
      await recordAudit(tx, ctx, { action: 'person-exports.order', recordId: row.id });
      return PersonExportResponse.of(row, null);
    });
  }

  async list(ctx: TenantContext, requestId: string): Promise<PersonExportResponse[]> {
    const { studioId } = ctx;
    return this.transaction.run(ctx, async (tx) => {
      found(await findRequest(tx, { studioId, id: requestId }));
      const now = await readClock(tx);
      const rows = await queries.listExports(tx, { studioId, requestId });
      return rows.map((row) => PersonExportResponse.of(row, this.addressOf(row, now)));
    });
  }

  /** Mailed as a link that works once; what it leads to is not in the mail. */
  async mail(ctx: TenantContext, id: string): Promise<void> {
    const { studioId } = ctx;
    // A message is not a record that is made: repeated, the link is mailed again, and it is the same one.
    await this.transaction.run(ctx, async (tx) => {
      const row = found(await queries.findExport(tx, { studioId, id }));
      const now = await readClock(tx);
      if (!isThere(row, now)) throw new CopyNotThere();
      const { clientId } = row;
      if (!(await queries.mayBeMailed(tx, { studioId, clientId }))) throw new MayNotBeMailed();
      await orderMessage(tx, {
        ...{ studioId, clientId, template: 'person_export_ready', subjectId: id },
        data: { expiresAt: (row.expiresAt as Date).toISOString() },
        expiresAt: row.expiresAt as Date,
      });
      await recordAudit(tx, ctx, { action: 'person-exports.mail', recordId: id });
    });
  }

  /** Whether a mailed link still leads to a copy. @throws NotFound when it does not */
  async shown(link: string): Promise<{ expiresAt: Date }> {
    const token = found(readTenantToken(link));
    return this.transaction.run(token, async (tx) => {
      const row = await usable(tx, token, await queries.findExport(tx, keyOf(token)));
      return { expiresAt: row.expiresAt as Date };
    });
  }

  /** The archive, for who has the link; it is used up. @throws NotFound */
  async take(link: string, requestId: string): Promise<StoredObject & typeof archive> {
    const token = found(readTenantToken(link));
    const { studioId, id } = token;
    const stored = found(await this.storage.get(personExportKey(studioId, id)));
    await this.transaction.run(token, async (tx) => {
      await usable(tx, token, await queries.findExportForUpdate(tx, keyOf(token)));
      await queries.markFetched(tx, { studioId, id });
      const ctx = { studioId, userId: null, roles: [], requestId };
      await recordAudit(tx, ctx, { action: 'person-exports.take', recordId: id });
    });
    return { ...stored, ...archive };
  }

  private addressOf(row: PersonExport, now: Date): string | null {
    if (!isThere(row, now)) return null;
    return this.addresses.addressOf({ key: personExportKey(row.studioId, row.id), ...archive }).url;
  }
}

const keyOf = ({ studioId, id }: TenantToken) => ({ studioId, id });

const isThere = ({ state, expiresAt }: PersonExport, now: Date): boolean =>
  state === 'ready' && expiresAt !== null && expiresAt > now;

async function usable(
  tx: EntityManager,
  { secret }: { secret: string },
  row: PersonExport | null,
): Promise<PersonExport> {
  if (!row?.linkHash || !hashesEqual(row.linkHash, secretHash(secret))) throw new NotFound();
  if (!isThere(row, await readClock(tx))) throw new NotFound();
  return row;
}

import { Inject, Injectable } from '@nestjs/common';
import {
  recordAudit,
  TenantTransaction,
  violates,
  type StoredFile,
  type TenantContext,
} from '@studio/database';
import { fileKeys, SignedAddresses, type ObjectStorage } from '@studio/storage';
import type { EntityManager } from 'typeorm';
import { StorageToken } from '../../http/http.module.js';
import { pageOf, pageSize } from '../../http/paging.js';
import { found, UnknownReference } from '../../http/problem.js';
import { onceWith, type UploadedFile } from '../../http/upload.js';
import { requireClient, requireConsent, requireKnownClient } from '../clients/index.js';
import { announceFile, discardFile, sha256Of } from './bytes-and-row.js';
import { checkedFile } from './checked-file.js';
import type { FilePage, FileResponse, ListFilesQuery, UploadFileRequest } from './files.dto.js';
import { FileOfShoeWork, FileOfSignedSession } from './files.errors.js';
import * as queries from './files.queries.js';

@Injectable()
export class FilesService {
  constructor(
    private readonly transaction: TenantTransaction,
    @Inject(StorageToken) private readonly storage: ObjectStorage,
    private readonly addresses: SignedAddresses,
  ) {}

  /**
   * Before anything is read of what a caller wants to upload.
   *
   * @throws NotFound, ConsentMissing
   */
  async requireUploadAllowed(ctx: TenantContext, clientId: string): Promise<void> {
    await this.transaction.run(ctx, async (tx) => {
      await requireClient(tx, ctx.studioId, clientId);
      // Feet, knees, backs: a photo of a rider tells of their health.
      await requireConsent(tx, { studioId: ctx.studioId, clientId }, 'health_data');
    });
  }

  async upload(
    ctx: TenantContext,
    clientId: string,
    upload: { file: UploadedFile; form: UploadFileRequest },
  ): Promise<FileResponse> {
    const { studioId } = ctx;
    const { mediaType, content, image } = await checkedFile(upload.file.content);
    const id = await this.transaction.run(ctx, (tx) => announceFile(tx, studioId));
    const keys = fileKeys(studioId, id);
    await this.storage.put(keys.content, content, mediaType);
    if (image) await this.storage.put(keys.thumbnail, image.thumbnail, 'image/webp');

    const { fitSessionId = null, bikeId = null, shoeId = null, caption = null } = upload.form;
    const kept = await asKept(
      this.transaction.runOnce(onceWith(ctx, upload), async (tx) => {
        await requireSubjects(tx, { studioId, clientId }, { fitSessionId, bikeId, shoeId });
        const file = await queries.insertFile(tx, {
          ...{ studioId, id, clientId, fitSessionId, bikeId, shoeId, caption, mediaType },
          fileName: upload.file.fileName,
          bytes: content.length,
          widthPx: image?.widthPx ?? null,
          heightPx: image?.heightPx ?? null,
          sha256: sha256Of(content),
          uploadedBy: ctx.userId,
        });
        await recordAudit(tx, ctx, { action: 'files.upload', recordId: id });
        return toKept(file);
      }),
    );
    return this.withAddresses(studioId, kept);
  }

  async list(ctx: TenantContext, clientId: string, query: ListFilesQuery): Promise<FilePage> {
    const { studioId } = ctx;
    const { after = null, limit: _, ...only } = query;
    const limit = pageSize(query);
    const rows = await this.transaction.run(ctx, async (tx) => {
      await requireKnownClient(tx, studioId, clientId);
      return queries.listFiles(tx, { studioId, clientId, only, after, limit: limit + 1 });
    });
    const { items, next } = pageOf(rows, limit);
    return { items: items.map((file) => this.withAddresses(studioId, toKept(file))), next };
  }

  async get(ctx: TenantContext, id: string): Promise<FileResponse> {
    const { studioId } = ctx;
    const file = found(await this.transaction.run(ctx, (tx) => queries.findFile(tx, { studioId, id })));
    return this.withAddresses(studioId, toKept(file));
  }

  async remove(ctx: TenantContext, id: string): Promise<void> {
    const { studioId } = ctx;
    await asKept(
      this.transaction.run(ctx, async (tx) => {
        found(await queries.findFile(tx, { studioId, id }));
        await discardFile(tx, { studioId, id });
        await recordAudit(tx, ctx, { action: 'files.delete', recordId: id });
      }),
    );
  }

  private withAddresses(studioId: string, file: KeptFile): FileResponse {
    const keys = fileKeys(studioId, file.id);
    const { mediaType, fileName } = file;
    const { url, expiresAt } = this.addresses.addressOf({ key: keys.content, mediaType, fileName });
    const thumbnail = { key: keys.thumbnail, mediaType: 'image/webp', fileName: 'thumbnail.webp' };
    return {
      ...file,
      url,
      thumbnailUrl: file.widthPx === null ? null : this.addresses.addressOf(thumbnail).url,
      expiresAt: expiresAt.toISOString(),
    };
  }
}

type KeptFile = Omit<FileResponse, 'url' | 'thumbnailUrl' | 'expiresAt'>;

const toKept = ({ studioId, createdAt, ...file }: StoredFile): KeptFile => ({
  ...file,
  uploadedAt: createdAt.toISOString(),
});

/** @throws UnknownReference naming what is not the client's */
async function requireSubjects(
  tx: EntityManager,
  client: { studioId: string; clientId: string },
  subjects: Parameters<typeof queries.subjectsAreOf>[2],
): Promise<void> {
  const known = await queries.subjectsAreOf(tx, client, subjects);
  const unknown = Object.entries(known).find(([, isKnown]) => !isKnown);
  if (unknown) throw new UnknownReference(unknown[0]);
}

/** @throws FileOfSignedSession, FileOfShoeWork */
async function asKept<T>(work: Promise<T>): Promise<T> {
  try {
    return await work;
  } catch (error) {
    if (violates(error, 'shoe_work_photos_file_id_fkey')) throw new FileOfShoeWork();
    throw violates(error, 'fit_sessions_signed_is_final') ? new FileOfSignedSession() : error;
  }
}

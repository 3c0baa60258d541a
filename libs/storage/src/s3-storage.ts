import {
  DeleteObjectCommand,
  GetObjectCommand,
  NoSuchKey,
  paginateListObjectsV2,
  S3Client,
} from '@aws-sdk/client-s3';
import { Upload } from '@aws-sdk/lib-storage';
import type { StorageConfig } from '@studio/config';
import type { Readable } from 'node:stream';
import { checkedKey } from './storage-key.js';
import type { ObjectStorage, StoredObject } from './storage.js';

type S3Config = Extract<StorageConfig, { kind: 's3' }>;

/** Objects in a bucket of anything that speaks S3. */
export class S3Storage implements ObjectStorage {
  private readonly client: S3Client;

  constructor(private readonly config: S3Config) {
    const { region, endpoint, credentials } = config;
    this.client = new S3Client({
      region,
      // Without keys of ours the client takes those of the machine's role.
      ...(credentials && { credentials }),
      // A server that is not Amazon's has no name of its own for each bucket.
      ...(endpoint !== undefined && { endpoint, forcePathStyle: true }),
      // Not every S3 server knows the checksums that the client would add by itself.
      requestChecksumCalculation: 'WHEN_REQUIRED',
      responseChecksumValidation: 'WHEN_REQUIRED',
    });
  }

  async put(key: string, content: Uint8Array | Readable, mediaType: string): Promise<void> {
    const params = { ...this.at(key), Body: content, ContentType: mediaType };
    // In parts when it is long, so that a stream's length need not be known.
    await new Upload({ client: this.client, params }).done();
  }

  async get(key: string): Promise<StoredObject | null> {
    try {
      const { Body, ContentLength } = await this.client.send(new GetObjectCommand(this.at(key)));
      return { bytes: ContentLength as number, content: Body as Readable };
    } catch (error) {
      if (error instanceof NoSuchKey) return null;
      throw error;
    }
  }

  async delete(key: string): Promise<void> {
    await this.client.send(new DeleteObjectCommand(this.at(key)));
  }

  async *list(): AsyncGenerator<string> {
    for await (const { Contents = [] } of paginateListObjectsV2(
      { client: this.client },
      { Bucket: this.config.bucket },
    )) {
      for (const { Key } of Contents) if (Key !== undefined) yield Key;
    }
  }

  private at(key: string): { Bucket: string; Key: string } {
    return { Bucket: this.config.bucket, Key: checkedKey(key) };
  }
}

import { createServer, type IncomingMessage } from 'node:http';
import type { AddressInfo } from 'node:net';
import { buffer } from 'node:stream/consumers';

interface Kept {
  readonly content: Buffer;
  readonly mediaType: string | undefined;
}

export interface S3Double {
  readonly endpoint: string;
  /** By `/bucket/key`. */
  readonly objects: ReadonlyMap<string, Kept>;
  readonly close: () => Promise<void>;
}

interface Answer {
  readonly status: number;
  readonly body?: Buffer | string;
}

/**
 * A test double of our own for the few calls of the S3 REST API that are used: PutObject, GetObject, DeleteObject,
 * ListObjectsV2 and an upload in parts, with errors as its reference writes them. It looks whose key id a request is signed with
 * (AWS4-HMAC-SHA256) and does not check the signature.
 */
export async function startS3Double(accessKeyId: string): Promise<S3Double> {
  const objects = new Map<string, Kept>();
  const inParts = new Map<string, { parts: Map<number, Buffer>; mediaType: string | undefined }>();

  /** Two to a page, so that pages are turned. */
  function listed(bucket: string, asked: URLSearchParams): string {
    const prefix = `${bucket.replace(/\/$/, '')}/`;
    const after = asked.get('continuation-token') ?? '';
    const keys = [...objects.keys()]
      .filter((name) => name.startsWith(prefix))
      .map((name) => name.slice(prefix.length))
      .filter((key) => key > after)
      .sort();
    const page = keys.slice(0, 2);
    const more = keys.length > page.length;
    return `<ListBucketResult><IsTruncated>${more}</IsTruncated>${page
      .map((key) => `<Contents><Key>${key}</Key></Contents>`)
      .join(
        '',
      )}${more ? `<NextContinuationToken>${page.at(-1) ?? ''}</NextContinuationToken>` : ''}</ListBucketResult>`;
  }

  async function answer(request: IncomingMessage): Promise<Answer> {
    const { pathname, searchParams } = new URL(request.url ?? '/', 'http://s3');
    const { authorization = '', 'content-type': mediaType } = request.headers;
    const content = await buffer(request);
    if (!authorization.startsWith(`AWS4-HMAC-SHA256 Credential=${accessKeyId}/`)) {
      return { status: 403, body: '<Error><Code>AccessDenied</Code></Error>' };
    }
    const upload = searchParams.has('uploadId') ? inParts.get(pathname) : undefined;
    switch (request.method) {
      case 'GET': {
        if (searchParams.get('list-type') === '2')
          return { status: 200, body: listed(pathname, searchParams) };
        const object = objects.get(pathname);
        if (!object) return { status: 404, body: '<Error><Code>NoSuchKey</Code></Error>' };
        return { status: 200, body: object.content };
      }
      case 'PUT':
        if (upload) upload.parts.set(Number(searchParams.get('partNumber')), content);
        else objects.set(pathname, { content, mediaType });
        return { status: 200 };
      case 'DELETE':
        objects.delete(pathname);
        return { status: 204 };
      case 'POST': {
        if (!upload) {
          inParts.set(pathname, { parts: new Map(), mediaType });
          return {
            status: 200,
            body: '<InitiateMultipartUploadResult><UploadId>1</UploadId></InitiateMultipartUploadResult>',
          };
        }
        const parts = [...upload.parts].sort(([one], [other]) => one - other).map(([, part]) => part);
        objects.set(pathname, { content: Buffer.concat(parts), mediaType: upload.mediaType });
        return { status: 200, body: '<CompleteMultipartUploadResult/>' };
      }
      default:
        return { status: 405 };
    }
  }

  const server = createServer((request, response) => {
    void answer(request).then(({ status, body = '' }) => {
      response.writeHead(status, { etag: '"tag"', 'content-length': Buffer.byteLength(body) }).end(body);
    });
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  return {
    endpoint: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
    objects,
    close: async () => {
      server.closeAllConnections();
      await new Promise((resolve) => server.close(resolve));
    },
  };
}

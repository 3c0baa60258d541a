import type { MultipartFile } from '@fastify/multipart';
import type { OnceKey, TenantContext } from '@studio/database';
import type { FastifyRequest } from 'fastify';
import { createHash } from 'node:crypto';
import { InvalidRequest } from './problem.js';
import { validationPipe } from './validation.pipe.js';

export interface UploadedFile {
  readonly fileName: string;
  readonly content: Buffer;
}

const longestFileName = 200;

/**
 * A form with one file, read after it is known who sends it: `file`, and other fields checked as `form` says.
 *
 * @throws InvalidRequest; the plugin's own error, 413, for a file longer than `maxBytes`
 */
export async function readUpload<Form extends object>(
  request: FastifyRequest,
  form: new () => Form,
  limits: { maxBytes: number },
): Promise<{ file: UploadedFile; form: Form }> {
  const { file, fields } = await readForm(request, limits);
  const checked = (await validationPipe().transform(fields, { type: 'body', metatype: form })) as Form;
  return { file, form: checked };
}

/** The one file of a form; other fields are passed over. Throws as `readUpload`. */
export async function readUploadedFile(
  request: FastifyRequest,
  limits: { maxBytes: number },
): Promise<UploadedFile> {
  return (await readForm(request, limits)).file;
}

async function readForm(
  request: FastifyRequest,
  { maxBytes }: { maxBytes: number },
): Promise<{ file: UploadedFile; fields: Record<string, unknown> }> {
  if (!request.isMultipart()) throw noFile();
  const fields: Record<string, unknown> = {};
  let file: UploadedFile | undefined;
  const limits = { fileSize: maxBytes, files: 1, fields: 20, fieldSize: 4_000, parts: 21 };
  try {
    for await (const part of request.parts({ limits })) {
      if (part.type === 'file') file = await read(part);
      else fields[part.fieldname] = part.value;
    }
  } catch (error) {
    // The reader of forms throws plain errors for a form it cannot read.
    throw error instanceof Error && !('status' in error || 'statusCode' in error) ? noFile() : error;
  }
  if (!file) throw noFile();
  return { file, fields };
}

async function read(part: MultipartFile): Promise<UploadedFile> {
  if (part.fieldname !== 'file') throw noFile();
  const content = await part.toBuffer();
  // Only the last part of a path, and no control characters.
  // oxlint-disable-next-line no-control-regex
  const fileName = (part.filename.split(/[\\/]/).at(-1) ?? '').replace(/[\u0000-\u001f\u007f]/g, '').trim();
  return { fileName: fileName.slice(-longestFileName) || 'file', content };
}

const noFile = (): InvalidRequest =>
  new InvalidRequest([{ field: 'file', message: 'must be one file in a form (multipart/form-data)' }]);

/** The context of a create whose request is its file and its form too: another file is another request. */
export function onceWith(
  ctx: TenantContext,
  { file, form }: { file: UploadedFile; form: object },
): TenantContext {
  if (!ctx.once) return ctx;
  const requestHash = createHash('sha256')
    .update(ctx.once.requestHash)
    .update(JSON.stringify([form, file.fileName]))
    .update(file.content)
    .digest();
  const once: OnceKey = { key: ctx.once.key, requestHash };
  return { ...ctx, once };
}

import { z } from 'zod';

/** Where photos and documents are kept: in a folder, or in a bucket once one is named. */
export type StorageConfig =
  | { readonly kind: 'folder'; readonly folder: string }
  | {
      readonly kind: 's3';
      readonly bucket: string;
      readonly region: string;
      readonly endpoint?: string;
      readonly credentials?: { readonly accessKeyId: string; readonly secretAccessKey: string };
    };

export const storageEnvironment = {
  STORAGE_FOLDER: z
    .string()
    .min(1)
    .default('.data/files')
    .describe('Where photos and documents are kept, without a bucket'),
  STORAGE_S3_BUCKET: z.string().min(3).optional().describe('A bucket for them, of anything that speaks S3'),
  STORAGE_S3_REGION: z.string().min(1).default('us-east-1').describe('The bucket’s region'),
  STORAGE_S3_ENDPOINT: z
    .url({ protocol: /^https?$/ })
    .optional()
    .describe('The server, if it is not Amazon’s'),
  STORAGE_S3_ACCESS_KEY_ID: z
    .string()
    .min(1)
    .optional()
    .describe('Without keys those of the machine’s role are used'),
  STORAGE_S3_SECRET_ACCESS_KEY: z.string().min(1).optional().describe('The secret of that key'),
};

export function storageOf(env: z.infer<z.ZodObject<typeof storageEnvironment>>): StorageConfig {
  const { STORAGE_S3_BUCKET: bucket, STORAGE_S3_REGION: region, STORAGE_S3_ENDPOINT: endpoint } = env;
  if (bucket === undefined) return { kind: 'folder', folder: env.STORAGE_FOLDER };
  const { STORAGE_S3_ACCESS_KEY_ID: accessKeyId, STORAGE_S3_SECRET_ACCESS_KEY: secretAccessKey } = env;
  return {
    kind: 's3',
    bucket,
    region,
    ...(endpoint !== undefined && { endpoint }),
    ...(accessKeyId !== undefined &&
      secretAccessKey !== undefined && { credentials: { accessKeyId, secretAccessKey } }),
  };
}

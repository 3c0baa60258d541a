import { dataOf, type components, type StudioClient } from '@studio/api-client';

type Fields = Omit<components['schemas']['UploadFileForm'], 'file'>;

/** The smallest PNG there is: one grey pixel. */
export const onePixel = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGNoAAAAggCBd81ytgAAAABJRU5ErkJggg==',
  'base64',
);

/** A form with a file, as openapi-fetch sends it. */
export function formOf(file: { content: Uint8Array; name: string }, fields: Fields = {}) {
  const form = new FormData();
  for (const [name, value] of Object.entries(fields)) form.append(name, value);
  form.append('file', new Blob([new Uint8Array(file.content)]), file.name);
  return { body: { file: file.name }, bodySerializer: () => form };
}

export function uploadPhoto(
  studio: StudioClient,
  clientId: string,
  {
    content = onePixel,
    name = 'photo.png',
    ...fields
  }: { content?: Uint8Array; name?: string } & Fields = {},
): Promise<components['schemas']['FileResponse']> {
  return dataOf(
    studio.POST('/v1/clients/{clientId}/files', {
      params: { path: { clientId } },
      ...formOf({ content, name }, fields),
    }),
  );
}

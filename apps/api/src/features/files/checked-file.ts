import { fileTypes, type FileType } from '@studio/database';
import { fileTypeFromBuffer } from 'file-type';
import sharp, { type Sharp } from 'sharp';
import { FileTypeRefused, ImageUnreadable } from './files.errors.js';

export const greatestBytes = 15 * 1024 * 1024;
/** More than any phone's photo; an image that unpacks to more is refused before it is unpacked. */
const greatestMegapixels = 64;
const thumbnailPx = 320;

export interface CheckedFile {
  readonly mediaType: FileType;
  readonly content: Buffer;
  readonly image: { readonly widthPx: number; readonly heightPx: number; readonly thumbnail: Buffer } | null;
}

/**
 * What is kept of an uploaded file. Its type is told by its content, whatever it is called. An image is written anew:
 * turned upright, in its own format and colours, without anything that was said in it of place, device or person.
 *
 * @throws FileTypeRefused, ImageUnreadable
 */
export async function checkedFile(content: Buffer): Promise<CheckedFile> {
  const found = await fileTypeFromBuffer(content);
  const mediaType = fileTypes.find((type) => type === found?.mime);
  if (mediaType === undefined) throw new FileTypeRefused();
  if (mediaType === 'application/pdf') return { mediaType, content, image: null };
  try {
    const upright = sharp(content, { limitInputPixels: greatestMegapixels * 1e6, failOn: 'error' })
      .autoOrient()
      .keepIccProfile();
    const { data, info } = await inFormat(upright, mediaType).toBuffer({ resolveWithObject: true });
    const thumbnail = await sharp(data)
      .resize(thumbnailPx, thumbnailPx, { fit: 'inside', withoutEnlargement: true })
      .webp()
      .toBuffer();
    return { mediaType, content: data, image: { widthPx: info.width, heightPx: info.height, thumbnail } };
  } catch {
    throw new ImageUnreadable(greatestMegapixels);
  }
}

function inFormat(image: Sharp, mediaType: Exclude<FileType, 'application/pdf'>): Sharp {
  switch (mediaType) {
    case 'image/jpeg':
      return image.jpeg({ quality: 90 });
    case 'image/png':
      return image.png();
    case 'image/webp':
      return image.webp({ quality: 90 });
  }
}

import { describe, expect, it } from '@jest/globals';
import sharp from 'sharp';
import { checkedFile } from './checked-file.js';
import { FileTypeRefused, ImageUnreadable } from './files.errors.js';

const picture = (widthPx: number, heightPx: number) =>
  sharp({ create: { width: widthPx, height: heightPx, channels: 3, background: '#557799' } });

/** EXIF 2.32: orientation 6 is a quarter turn clockwise; IFD3 is what libvips calls the one of the position. */
const fromAPhone = () =>
  picture(60, 40)
    .jpeg()
    .withExif({
      IFD0: { Model: 'phone' },
      IFD3: { GPSLatitudeRef: 'N', GPSLatitude: '55/1 40/1 30/1' },
    })
    .withMetadata({ orientation: 6 })
    .toBuffer();

describe('an uploaded file', () => {
  it('is turned upright and keeps nothing of where it was taken', async () => {
    const photo = await fromAPhone();
    const before = await sharp(photo).metadata();
    expect(before.exif?.includes('phone')).toBe(true);
    expect(before.orientation).toBe(6);

    const { mediaType, content, image } = await checkedFile(photo);
    expect(mediaType).toBe('image/jpeg');
    expect(image).toMatchObject({ widthPx: 40, heightPx: 60 });
    for (const kept of [content, image?.thumbnail ?? content]) {
      const { exif, xmp, iptc, orientation } = await sharp(kept).metadata();
      expect([exif, xmp, iptc, orientation]).toEqual([undefined, undefined, undefined, undefined]);
      expect(kept.includes('GPS')).toBe(false);
      expect(kept.includes('phone')).toBe(false);
    }
  });

  it('has a thumbnail that fits into a square, and is never enlarged', async () => {
    const sizeOf = async (content: Buffer) => {
      const { width, height, format } = await sharp((await checkedFile(content)).image?.thumbnail).metadata();
      return { width, height, format };
    };
    expect(await sizeOf(await picture(1600, 800).png().toBuffer())).toEqual({
      width: 320,
      height: 160,
      format: 'webp',
    });
    expect(await sizeOf(await picture(30, 20).webp().toBuffer())).toMatchObject({ width: 30, height: 20 });
  });

  it('is what its bytes say: a document is kept as it is', async () => {
    const document = Buffer.from('%PDF-1.7\n1 0 obj <<>> endobj\n');
    expect(await checkedFile(document)).toEqual({
      mediaType: 'application/pdf',
      content: document,
      image: null,
    });
  });

  it.each([
    ['a page', '<!doctype html><script>alert(1)</script>'],
    ['a drawing that can hold script', '<svg xmlns="http://www.w3.org/2000/svg"/>'],
    ['nothing', ''],
    ['an archive', 'PK\u0003\u0004'],
  ])('is refused when it is %s', async (_, text) => {
    await expect(checkedFile(Buffer.from(text, 'latin1'))).rejects.toThrow(FileTypeRefused);
  });

  it('is refused when it breaks off, or unpacks to too much', async () => {
    const whole = await picture(600, 400).jpeg().toBuffer();
    await expect(checkedFile(whole.subarray(0, whole.length - 200))).rejects.toThrow(ImageUnreadable);
    const raw = { width: 9000, height: 8000, channels: 1 as const };
    const bomb = await sharp(Buffer.alloc(9000 * 8000), { raw })
      .png({ compressionLevel: 1 })
      .toBuffer();
    expect(bomb.length).toBeLessThan(3_000_000);
    await expect(checkedFile(bomb)).rejects.toThrow(ImageUnreadable);
  });
});

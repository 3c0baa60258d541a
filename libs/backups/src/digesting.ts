import { createHash } from 'node:crypto';
import { Transform, type Readable } from 'node:stream';

/** Passes bytes on as they are, and tells at their end how many there were and their SHA-256 in hexadecimal. */
export function digesting(source: Readable): {
  content: Readable;
  digest: () => { bytes: number; sha256: string };
} {
  const hash = createHash('sha256');
  let bytes = 0;
  const content = new Transform({
    transform(chunk: Buffer, _encoding, done) {
      hash.update(chunk);
      bytes += chunk.length;
      done(null, chunk);
    },
  });
  source.on('error', (error) => content.destroy(error));
  return { content: source.pipe(content), digest: () => ({ bytes, sha256: hash.digest('hex') }) };
}

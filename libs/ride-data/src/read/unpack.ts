import { Gunzip, Unzip, UnzipInflate } from 'fflate';
import { RideDataError } from '../errors.js';
import type { ReadLimits } from '../limits.js';

/**
 * Inflating goes by small pieces, so that a bomb is noticed before it unfolds: deflate makes at most about a thousand
 * bytes of one.
 */
const pieceBytes = 4096;

export const isGzip = (head: Uint8Array): boolean => head[0] === 0x1f && head[1] === 0x8b;
/** `PK`, in the form that begins an archive with a file in it. */
export const isZip = (head: Uint8Array): boolean =>
  head[0] === 0x50 && head[1] === 0x4b && head[2] === 3 && head[3] === 4;

export function unpackGzip(chunks: AsyncIterable<Uint8Array>): AsyncGenerator<Uint8Array> {
  return inflated(chunks, (emit) => {
    const gunzip = new Gunzip(emit);
    return (piece, final) => {
      gunzip.push(piece, final);
    };
  });
}

/** The one recording in an archive; other files beside it are passed over. */
export async function* unpackZip(
  chunks: AsyncIterable<Uint8Array>,
  limits: ReadLimits,
): AsyncGenerator<Uint8Array> {
  let entries = 0;
  let recordings = 0;
  yield* inflated(chunks, (emit) => {
    const unzip = new Unzip((file) => {
      entries += 1;
      if (entries > limits.archiveEntries) {
        throw new RideDataError(
          'ride.too-many-entries',
          `The archive holds more than ${limits.archiveEntries} files.`,
        );
      }
      if (!/\.(fit|tcx|gpx|csv)$/i.test(file.name)) return;
      recordings += 1;
      if (recordings > 1) {
        throw new RideDataError('ride.several-recordings', 'The archive holds more than one recording.');
      }
      file.ondata = (error, data) => {
        // Typed as always there; it is null when all is well.
        if (error instanceof Error) throw error;
        emit(data);
      };
      file.start();
    });
    unzip.register(UnzipInflate);
    return (piece, final) => {
      unzip.push(piece, final);
    };
  });
  if (recordings === 0) {
    throw new RideDataError('ride.unknown-format', 'The archive holds no FIT, TCX, GPX or CSV file.');
  }
}

async function* inflated(
  chunks: AsyncIterable<Uint8Array>,
  start: (emit: (data: Uint8Array) => void) => (piece: Uint8Array, final: boolean) => void,
): AsyncGenerator<Uint8Array> {
  let ready: Uint8Array[] = [];
  const push = start((data) => ready.push(data));
  const inflate = (piece: Uint8Array, final: boolean): Uint8Array[] => {
    try {
      push(piece, final);
    } catch (error) {
      if (error instanceof RideDataError) throw error;
      throw new RideDataError('ride.damaged', 'The packed file is damaged.', { cause: error });
    }
    const done = ready;
    ready = [];
    return done;
  };
  for await (const chunk of chunks) {
    for (let at = 0; at < chunk.byteLength; at += pieceBytes) {
      yield* inflate(chunk.subarray(at, at + pieceBytes), false);
    }
  }
  yield* inflate(new Uint8Array(0), true);
}

import { RideDataError } from '../errors.js';
import { usualLimits, type ReadLimits } from '../limits.js';
import type { RideRecording } from '../ride-recording.js';
import { toRecording } from '../series/to-recording.js';
import { collected, decoded, limited, peek, type Chunks, type Peeked } from './bytes.js';
import { readCsv } from './csv.js';
import { isFit, readFit } from './fit.js';
import type { RawRecording } from './raw-recording.js';
import { isGzip, isZip, unpackGzip, unpackZip } from './unpack.js';
import { readXml } from './xml.js';

/**
 * Reads a ride recording: FIT, TCX, GPX or CSV, plain, gzipped, or alone in a zip archive. The content decides, not
 * a file name.
 *
 * The bytes are taken as they come and counted; a file that unfolds beyond its limits is refused on the way. Text
 * formats are parsed piece by piece; FIT is collected first, as its decoder needs all of it.
 *
 * @param chunks a stream, or `[buffer]`
 * @throws RideDataError for everything that cannot be read as one recording; other errors are the stream's own
 * @example const ride = await readRide(request); // or readRide([buffer])
 */
export async function readRide(chunks: Chunks, limits: ReadLimits = usualLimits): Promise<RideRecording> {
  const plain = await unpacked(await peek(limited(chunks, limits.sentBytes)), limits);
  return toRecording(await readPlain(plain, limits), limits);
}

async function unpacked(sent: Peeked, limits: ReadLimits): Promise<Peeked> {
  if (isGzip(sent.head)) return peek(limited(unpackGzip(sent.chunks), limits.unpackedBytes));
  if (isZip(sent.head)) return peek(limited(unpackZip(sent.chunks, limits), limits.unpackedBytes));
  return sent;
}

async function readPlain(plain: Peeked, limits: ReadLimits): Promise<RawRecording> {
  if (plain.head.byteLength === 0) throw new RideDataError('ride.empty', 'The recording is empty.');
  if (isGzip(plain.head) || isZip(plain.head)) {
    throw new RideDataError('ride.unknown-format', 'The recording is packed more than once.');
  }
  if (isFit(plain.head)) return readFit(await collected(plain.chunks), limits);
  const [first] = /\S/.exec(new TextDecoder().decode(plain.head)) ?? [];
  return first === '<' ? readXml(decoded(plain.chunks), limits) : readCsv(plain, limits);
}

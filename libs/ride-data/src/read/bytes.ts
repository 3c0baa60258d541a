import { RideDataError } from '../errors.js';

/** Bytes in pieces, such as a Node stream or `[buffer]`. */
export type Chunks = AsyncIterable<Uint8Array> | Iterable<Uint8Array>;

/** Chunks whose beginning has been looked at. */
export interface Peeked {
  /** At most 4 KiB. */
  readonly head: Uint8Array;
  /** Everything, the head included. To be read once. */
  readonly chunks: AsyncIterable<Uint8Array>;
}

const headBytes = 4096;

/** Passes the chunks on until they exceed the limit. */
export async function* limited(chunks: Chunks, mostBytes: number): AsyncGenerator<Uint8Array> {
  let bytes = 0;
  for await (const chunk of chunks) {
    bytes += chunk.byteLength;
    if (bytes > mostBytes) {
      throw new RideDataError('ride.too-large', `The recording is larger than ${mostBytes} bytes.`);
    }
    yield chunk;
  }
}

export async function peek(chunks: AsyncGenerator<Uint8Array>): Promise<Peeked> {
  const first: Uint8Array[] = [];
  let bytes = 0;
  while (bytes < headBytes) {
    const next = await chunks.next();
    if (next.done) break;
    first.push(next.value);
    bytes += next.value.byteLength;
  }
  async function* all(): AsyncGenerator<Uint8Array> {
    yield* first;
    yield* chunks;
  }
  return { head: joined(first).subarray(0, headBytes), chunks: all() };
}

export async function collected(chunks: AsyncIterable<Uint8Array>): Promise<Uint8Array> {
  const parts: Uint8Array[] = [];
  for await (const chunk of chunks) parts.push(chunk);
  return joined(parts);
}

function joined(parts: readonly Uint8Array[]): Uint8Array {
  const all = new Uint8Array(parts.reduce((sum, part) => sum + part.byteLength, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.byteLength;
  }
  return all;
}

/** UTF-8, whatever the pieces cut through. */
export async function* decoded(chunks: AsyncIterable<Uint8Array>): AsyncGenerator<string> {
  const decoder = new TextDecoder('utf-8', { fatal: true });
  const decode = (chunk?: Uint8Array): string => {
    try {
      return decoder.decode(chunk, { stream: chunk !== undefined });
    } catch (cause) {
      throw new RideDataError('ride.damaged', 'The recording is not UTF-8 text.', { cause });
    }
  };
  for await (const chunk of chunks) yield decode(chunk);
  yield decode();
}

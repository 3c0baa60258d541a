/** What one recording may cost; beyond any of these it is refused. */
export interface ReadLimits {
  /** Bytes as sent. */
  readonly sentBytes: number;
  /** Bytes after unpacking. */
  readonly unpackedBytes: number;
  /** Files in an archive, whatever they are. */
  readonly archiveEntries: number;
  /** Records, messages or rows. */
  readonly entries: number;
  /** Nested XML elements. */
  readonly xmlDepth: number;
  /** From first to last record. */
  readonly spanS: number;
}

/** House rule: room for four days on the road, at one record a second, in the wordiest format. */
export const usualLimits: ReadLimits = {
  sentBytes: 64 * 1024 ** 2,
  unpackedBytes: 256 * 1024 ** 2,
  archiveEntries: 20,
  entries: 400_000,
  xmlDepth: 32,
  spanS: 4 * 86_400,
};

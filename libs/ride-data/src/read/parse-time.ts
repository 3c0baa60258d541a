export interface ParsedTime {
  /** Unix time. */
  readonly atMs: number;
  /** Null for UTC and when no zone is given. */
  readonly offsetMinutes: number | null;
  readonly zoneGiven: boolean;
}

const pattern = /^(\d{4}-\d{2}-\d{2})[T ](\d{2}:\d{2}:\d{2}(?:\.\d+)?)\s*(Z|[+-]\d{2}:?\d{2})?$/i;

/**
 * A moment in the form of XML Schema's dateTime. Without a zone it is taken for UTC, as the formats prescribe, and
 * never for the zone of the computer that reads.
 *
 * @returns null when the text is no such moment
 * @example parseTime('2024-05-01T10:00:00+02:00')?.offsetMinutes; // 120
 */
export function parseTime(text: string): ParsedTime | null {
  const [, date, time, zone] = pattern.exec(text.trim()) ?? [];
  if (date === undefined || time === undefined) return null;
  const atMs = Date.parse(`${date}T${time}${zone === undefined ? 'Z' : zone.toUpperCase()}`);
  if (Number.isNaN(atMs)) return null;
  if (zone === undefined || zone.toUpperCase() === 'Z') {
    return { atMs, offsetMinutes: null, zoneGiven: zone !== undefined };
  }
  const digits = zone.slice(1).replace(':', '');
  const minutes = Number(digits.slice(0, 2)) * 60 + Number(digits.slice(2));
  return { atMs, offsetMinutes: zone.startsWith('-') ? -minutes : minutes, zoneGiven: true };
}

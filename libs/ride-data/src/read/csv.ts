import { parse, CsvError } from 'csv-parse';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { RideDataError } from '../errors.js';
import type { ReadLimits } from '../limits.js';
import type { Channels } from '../ride-recording.js';
import type { Peeked } from './bytes.js';
import { parseTime } from './parse-time.js';
import { nothingRecorded, type RawRecording, type RawSample } from './raw-recording.js';
import { zoneNote } from './xml.js';

interface Column {
  readonly channel: keyof Channels;
  /** What one unit of the column is in the unit of the channel. */
  readonly factor: number;
}

/** Every column carries its unit in its name; one without is told and not guessed at. */
const columns: Readonly<Record<string, Column>> = {
  power_w: { channel: 'powerW', factor: 1 },
  cadence_rpm: { channel: 'cadenceRpm', factor: 1 },
  speed_mps: { channel: 'speedMps', factor: 1 },
  speed_kmh: { channel: 'speedMps', factor: 1 / 3.6 },
  speed_mph: { channel: 'speedMps', factor: 0.44704 },
  altitude_m: { channel: 'altitudeM', factor: 1 },
  altitude_ft: { channel: 'altitudeM', factor: 0.3048 },
  heart_rate_bpm: { channel: 'heartRateBpm', factor: 1 },
  distance_m: { channel: 'distanceM', factor: 1 },
  distance_km: { channel: 'distanceM', factor: 1000 },
  distance_mi: { channel: 'distanceM', factor: 1609.344 },
  latitude_deg: { channel: 'latitudeDeg', factor: 1 },
  longitude_deg: { channel: 'longitudeDeg', factor: 1 },
};

/** `Heart rate (bpm)` → `heart_rate_bpm`, `Speed [km/h]` → `speed_kmh`, `speed m/s` → `speed_mps` */
const plainName = (name: string): string =>
  name
    .toLowerCase()
    .replace('m/s', 'mps')
    .replace(/[/()[\]]/g, '')
    .trim()
    .replace(/[\s_-]+/g, '_');

/**
 * A table with a header line. Columns: `time` (date, time and zone) or `seconds` (counted from the start), and any of
 * `power_w`, `cadence_rpm`, `speed_mps|kmh|mph`, `altitude_m|ft`, `heart_rate_bpm`, `distance_m|km|mi`,
 * `latitude_deg`, `longitude_deg`. Separated by comma, semicolon or tab; with the latter two the decimal sign may be a
 * comma. An empty cell is a missing value.
 *
 * @throws RideDataError `ride.bad-value` naming the line of a cell that is no number
 */
export async function readCsv({ head, chunks }: Peeked, limits: ReadLimits): Promise<RawRecording> {
  const delimiter = delimiterOf(head);
  const parser = parse({
    bom: true,
    delimiter,
    info: true,
    max_record_size: 65_536,
    skip_empty_lines: true,
    trim: true,
  });
  let table: Table | undefined;
  try {
    await pipeline(Readable.from(chunks), parser, async (rows: AsyncIterable<Row>) => {
      for await (const { record, info } of rows) {
        if (table === undefined) table = new Table(record, delimiter !== ',');
        else table.add(record, info.lines, limits);
      }
    });
  } catch (error) {
    if (error instanceof CsvError) {
      throw new RideDataError('ride.damaged', `The table cannot be read: ${error.message}`, { cause: error });
    }
    throw error;
  }
  if (table === undefined) throw new RideDataError('ride.empty', 'The recording is empty.');
  return table.recording();
}

interface Row {
  readonly record: readonly string[];
  readonly info: { readonly lines: number };
}

function delimiterOf(head: Uint8Array): string {
  const [header = ''] = new TextDecoder().decode(head).split(/[\r\n]/, 1);
  return [';', '\t'].find((candidate) => header.includes(candidate)) ?? ',';
}

/** The rows read so far, under their header. */
class Table {
  private readonly names: readonly string[];
  private readonly timeAt: number;
  private readonly secondsAt: number;
  private readonly samples: RawSample[] = [];
  private zonesMissing = 0;
  private utcOffsetMinutes: number | null = null;

  constructor(
    private readonly header: readonly string[],
    private readonly decimalComma: boolean,
  ) {
    this.names = header.map(plainName);
    this.timeAt = this.names.indexOf('time');
    this.secondsAt = this.names.indexOf('seconds');
    if (!this.names.some((name) => name in columns)) {
      throw new RideDataError(
        'ride.unknown-format',
        'The file is neither FIT, TCX or GPX nor a table we know.',
      );
    }
    if (this.timeAt < 0 && this.secondsAt < 0) {
      throw new RideDataError('ride.no-time', 'The table has neither a column “time” nor “seconds”.');
    }
  }

  add(row: readonly string[], line: number, limits: ReadLimits): void {
    if (this.samples.length >= limits.entries) {
      throw new RideDataError('ride.too-many-entries', `The table holds more than ${limits.entries} rows.`);
    }
    const channels: { -readonly [K in keyof Channels]: Channels[K] } = { ...nothingRecorded };
    this.names.forEach((name, i) => {
      const column = columns[name];
      const value = column === undefined ? null : this.number(row[i] ?? '', line);
      if (column !== undefined && value !== null) channels[column.channel] = value * column.factor;
    });
    this.samples.push({ atMs: this.atMs(row, line), ...channels });
  }

  recording(): RawRecording {
    const unread = this.header.filter((_, i) => !this.isRead(i));
    return {
      format: 'csv',
      samples: this.samples,
      clockIsSet: this.timeAt >= 0,
      utcOffsetMinutes: this.utcOffsetMinutes,
      stops: [],
      device: null,
      notes: [
        ...zoneNote(this.zonesMissing),
        ...(unread.length === 0
          ? []
          : [
              {
                code: 'columns-not-read' as const,
                count: unread.length,
                sentence: `Not read, as unknown or without a unit: ${unread.join(', ')}.`,
              },
            ]),
      ],
    };
  }

  private isRead(i: number): boolean {
    return i === this.timeAt || i === this.secondsAt || (this.names[i] ?? '') in columns;
  }

  private atMs(row: readonly string[], line: number): number {
    if (this.timeAt >= 0) {
      const time = parseTime(row[this.timeAt] ?? '');
      if (time === null) throw badValue(line, 'time');
      if (!time.zoneGiven) this.zonesMissing += 1;
      this.utcOffsetMinutes ??= time.offsetMinutes;
      return time.atMs;
    }
    const seconds = this.number(row[this.secondsAt] ?? '', line);
    if (seconds === null) throw badValue(line, 'number of seconds');
    return seconds * 1000;
  }

  private number(cell: string, line: number): number | null {
    if (cell === '') return null;
    const value = Number(this.decimalComma ? cell.replace(',', '.') : cell);
    if (!Number.isFinite(value)) throw badValue(line, 'number');
    return value;
  }
}

const badValue = (line: number, wanted: string): RideDataError =>
  new RideDataError('ride.bad-value', `Line ${line} of the table has a cell that is no ${wanted}.`);

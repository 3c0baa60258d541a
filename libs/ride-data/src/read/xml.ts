import { SaxesParser } from 'saxes';
import { RideDataError } from '../errors.js';
import type { ReadLimits } from '../limits.js';
import type { Channels, RideNote } from '../ride-recording.js';
import { parseTime, type ParsedTime } from './parse-time.js';
import { nothingRecorded, type RawRecording, type RawSample } from './raw-recording.js';

/** How a format spells what we read; names without their prefix, as exporters choose prefixes freely. */
interface XmlFormat {
  readonly format: 'tcx' | 'gpx';
  readonly point: string;
  /** A new one begins where the device was stopped. */
  readonly segment: string;
  readonly time: string;
  /** Element, or parent/element where the name alone is not enough. */
  readonly channels: Readonly<Record<string, keyof Channels>>;
}

const formats: Readonly<Record<string, XmlFormat>> = {
  TrainingCenterDatabase: {
    format: 'tcx',
    point: 'Trackpoint',
    segment: 'Track',
    time: 'Time',
    channels: {
      'TPX/Watts': 'powerW',
      'TPX/Speed': 'speedMps',
      'Trackpoint/Cadence': 'cadenceRpm',
      'Trackpoint/AltitudeMeters': 'altitudeM',
      'Trackpoint/DistanceMeters': 'distanceM',
      'HeartRateBpm/Value': 'heartRateBpm',
      'Position/LatitudeDegrees': 'latitudeDeg',
      'Position/LongitudeDegrees': 'longitudeDeg',
    },
  },
  gpx: {
    format: 'gpx',
    point: 'trkpt',
    segment: 'trkseg',
    time: 'time',
    channels: {
      PowerInWatts: 'powerW',
      power: 'powerW',
      cad: 'cadenceRpm',
      cadence: 'cadenceRpm',
      hr: 'heartRateBpm',
      speed: 'speedMps',
      ele: 'altitudeM',
    },
  },
};

const withoutPrefix = (name: string): string => name.slice(name.indexOf(':') + 1);

/**
 * TCX or GPX 1.1 with its power extensions, told apart by the root element.
 *
 * No document type is accepted: that leaves no entities to expand, and none to fetch.
 *
 * @throws RideDataError
 */
export async function readXml(text: AsyncIterable<string>, limits: ReadLimits): Promise<RawRecording> {
  const parser = new SaxesParser({ xmlns: false });
  const open: string[] = [];
  const samples: RawSample[] = [];
  const stops: { fromMs: number; toMs: number }[] = [];
  let format: XmlFormat | undefined;
  let point:
    | { time: ParsedTime | null; channels: { -readonly [K in keyof Channels]: Channels[K] } }
    | undefined;
  let characters = '';
  let segmentIsNew = false;
  let untimed = 0;
  let zonesMissing = 0;
  let utcOffsetMinutes: number | null = null;

  parser.on('doctype', () => {
    throw new RideDataError('ride.unsafe-xml', 'The recording declares a document type; it is not read.');
  });
  parser.on('error', (error) => {
    throw new RideDataError('ride.damaged', 'The recording is no well-formed XML.', { cause: error });
  });
  parser.on('text', (piece) => {
    characters = piece;
  });
  parser.on('opentag', ({ name, attributes }) => {
    const element = withoutPrefix(name);
    open.push(element);
    characters = '';
    if (open.length > limits.xmlDepth) {
      throw new RideDataError(
        'ride.unsafe-xml',
        `The recording nests elements deeper than ${limits.xmlDepth}.`,
      );
    }
    if (open.length === 1) {
      format = formats[element];
      if (format === undefined) {
        throw new RideDataError('ride.unknown-format', 'The XML file is neither TCX nor GPX.');
      }
    }
    if (element === format?.segment) segmentIsNew = true;
    if (element === format?.point) {
      point = { time: null, channels: { ...nothingRecorded } };
      point.channels.latitudeDeg = numberIn(attributes['lat']);
      point.channels.longitudeDeg = numberIn(attributes['lon']);
    }
  });
  parser.on('closetag', () => {
    const element = open.pop() ?? '';
    if (format === undefined || point === undefined) return;
    if (element === format.point) finish();
    else if (element === format.time && open.at(-1) === format.point) point.time = parseTime(characters);
    else {
      const channel = format.channels[`${open.at(-1) ?? ''}/${element}`] ?? format.channels[element];
      if (channel !== undefined) point.channels[channel] = numberIn(characters);
    }
    characters = '';
  });

  function finish(): void {
    if (point?.time == null) {
      untimed += 1;
    } else {
      const { atMs, offsetMinutes, zoneGiven } = point.time;
      if (!zoneGiven) zonesMissing += 1;
      utcOffsetMinutes ??= offsetMinutes;
      const before = samples.at(-1);
      if (segmentIsNew && before !== undefined) stops.push({ fromMs: before.atMs, toMs: atMs });
      segmentIsNew = false;
      samples.push({ atMs, ...point.channels });
    }
    point = undefined;
    if (samples.length + untimed > limits.entries) {
      throw new RideDataError(
        'ride.too-many-entries',
        `The recording holds more than ${limits.entries} points.`,
      );
    }
  }

  for await (const piece of text) parser.write(piece);
  parser.close();
  if (format === undefined) throw new RideDataError('ride.damaged', 'The recording is empty.');
  if (samples.length === 0 && untimed > 0) {
    throw new RideDataError('ride.no-time', 'The points carry no time: a planned route, not a recording.');
  }
  return {
    format: format.format,
    samples,
    clockIsSet: true,
    utcOffsetMinutes,
    stops,
    device: null,
    notes: [...untimedNote(untimed), ...zoneNote(zonesMissing)],
  };
}

function numberIn(text: string | undefined): number | null {
  if (text === undefined || text.trim() === '') return null;
  const value = Number(text);
  return Number.isFinite(value) ? value : null;
}

const untimedNote = (count: number): RideNote[] =>
  count === 0
    ? []
    : [{ code: 'untimed-records', count, sentence: `${count} points without a time were left out.` }];

export const zoneNote = (count: number): RideNote[] =>
  count === 0
    ? []
    : [{ code: 'zone-assumed', count, sentence: `${count} times carry no zone; they were taken for UTC.` }];

import {
  Decoder,
  Stream,
  type ActivityMesg,
  type EventMesg,
  type RecordMesg,
  type SessionMesg,
} from '@garmin/fitsdk';
import { RideDataError } from '../errors.js';
import type { ReadLimits } from '../limits.js';
import type { DeviceSummary, RideNote } from '../ride-recording.js';
import type { RawRecording, RawSample } from './raw-recording.js';

export const isFit = (head: Uint8Array): boolean =>
  head.length >= 12 && String.fromCharCode(...head.subarray(8, 12)) === '.FIT';

/** Message numbers of the profile. */
const session = 18;
const record = 20;
const event = 21;
const activity = 34;

/** 1989-12-31T00:00:00Z. */
const epochS = 631_065_600;
/** Stamps below this count the seconds since the device was switched on, as its clock was not set. */
const firstAbsoluteStamp = 0x10000000;
const timerEvent = 0;
const started = 0;
/** stop, stop all, stop and disable, stop and disable all */
const stopped: readonly unknown[] = [1, 4, 8, 9];

const degreesPerSemicircle = 180 / 2 ** 31;

/**
 * A FIT recording by the official decoder.
 *
 * @throws RideDataError `ride.cut-short` when the file ends before its header says, `ride.damaged` when a message
 *   cannot be read; a wrong checksum alone is told, not refused
 */
export function readFit(bytes: Uint8Array, limits: ReadLimits): RawRecording {
  requireWholeFile(bytes);
  const records: RecordMesg[] = [];
  const events: EventMesg[] = [];
  let summary: SessionMesg | undefined;
  let end: ActivityMesg | undefined;
  let messages = 0;

  const stream = Stream.fromByteArray(bytes);
  const { errors } = new Decoder(stream).read({
    mesgListener: (number, message) => {
      messages += 1;
      if (messages > limits.entries) {
        throw new RideDataError(
          'ride.too-many-entries',
          `The recording holds more than ${limits.entries} messages.`,
        );
      }
      if (number === record) records.push(message);
      else if (number === event) events.push(message);
      else if (number === session) summary ??= message;
      else if (number === activity) end = message;
    },
    expandSubFields: false,
    expandComponents: false,
    convertTypesToStrings: false,
    convertDateTimesToDates: false,
    mergeHeartRates: false,
  });
  const notes = judged(errors, stream);

  const timed = records.flatMap((message) => {
    const stampS = numberOf(message.timestamp);
    return stampS === null ? [] : [{ message, stampS }];
  });
  const clockIsSet = timed.every(({ stampS }) => stampS >= firstAbsoluteStamp);
  return {
    format: 'fit',
    samples: timed.map(({ message, stampS }) => sampleOf(message, msOf(stampS))),
    clockIsSet,
    utcOffsetMinutes: end === undefined ? null : offsetOf(end),
    stops: stopsOf(events),
    device: summary === undefined ? null : summaryOf(summary),
    notes,
  };
}

function requireWholeFile(bytes: Uint8Array): void {
  const header = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const headerBytes = header.getUint8(0);
  const checksumBytes = 2;
  if (bytes.byteLength < headerBytes + header.getUint32(4, true) + checksumBytes) {
    throw new RideDataError('ride.cut-short', 'The recording ends before its header says it does.');
  }
}

/** Decides whether what the decoder stumbled over left the data whole. */
function judged(errors: readonly Error[], stream: Stream): RideNote[] {
  const [error] = errors;
  if (error === undefined) return [];
  if (error instanceof RideDataError) throw error;
  if (stream.position < stream.length) {
    throw new RideDataError('ride.damaged', 'A part of the recording cannot be read.', { cause: error });
  }
  return [
    {
      code: 'checksum-wrong',
      count: null,
      sentence: 'The checksum does not match what was recorded, so single values may be wrong.',
    },
  ];
}

function sampleOf(message: RecordMesg, atMs: number): RawSample {
  const cadence = numberOf(message.cadence);
  const latitude = numberOf(message.positionLat);
  const longitude = numberOf(message.positionLong);
  return {
    atMs,
    powerW: numberOf(message.power),
    cadenceRpm: cadence === null ? null : cadence + (numberOf(message.fractionalCadence) ?? 0),
    speedMps: numberOf(message.enhancedSpeed) ?? numberOf(message.speed),
    altitudeM: numberOf(message.enhancedAltitude) ?? numberOf(message.altitude),
    heartRateBpm: numberOf(message.heartRate),
    distanceM: numberOf(message.distance),
    latitudeDeg: latitude === null ? null : latitude * degreesPerSemicircle,
    longitudeDeg: longitude === null ? null : longitude * degreesPerSemicircle,
  };
}

function stopsOf(events: readonly EventMesg[]): RawRecording['stops'] {
  const stops: { fromMs: number; toMs: number }[] = [];
  let fromS: number | null = null;
  for (const { event: kind, eventType, timestamp } of events) {
    const stampS = numberOf(timestamp);
    if ((kind as unknown) !== timerEvent || stampS === null) continue;
    if (stopped.includes(eventType)) {
      fromS ??= stampS;
    } else if ((eventType as unknown) === started && fromS !== null) {
      stops.push({ fromMs: msOf(fromS), toMs: msOf(stampS) });
      fromS = null;
    }
  }
  return stops;
}

function summaryOf({ avgPower, maxPower }: SessionMesg): DeviceSummary {
  return { meanPowerW: numberOf(avgPower), maxPowerW: numberOf(maxPower) };
}

/** Zones differ by quarters of an hour; the two stamps may be taken some seconds apart. */
function offsetOf({ timestamp, localTimestamp }: ActivityMesg): number | null {
  const utcS = numberOf(timestamp);
  const localS = numberOf(localTimestamp);
  if (utcS === null || localS === null) return null;
  const minutes = Math.round((localS - utcS) / 900) * 15;
  return Math.abs(minutes) <= 14 * 60 ? minutes : null;
}

const msOf = (stampS: number): number => (stampS + epochS) * 1000;

/** The decoder leaves out what the device marked as invalid; anything but a number is no reading either. */
const numberOf = (value: unknown): number | null =>
  typeof value === 'number' && Number.isFinite(value) ? value : null;

import { Encoder, type EventMesg, type FileIdMesg, type RecordMesg } from '@garmin/fitsdk';

/** One second of an invented ride, as every format can carry it. */
export interface WrittenSecond {
  readonly second: number;
  readonly powerW: number | null;
  readonly cadenceRpm?: number;
  readonly heartRateBpm?: number;
  readonly speedMps?: number;
  readonly altitudeM?: number;
}

/** Message numbers of the FIT profile. */
const fileId = 0;
const record = 20;
const event = 21;

export const startMs = Date.UTC(2025, 4, 3, 7, 30, 0);
const isoAt = (second: number): string => new Date(startMs + second * 1000).toISOString();
const element = (name: string, value: number | null | undefined): string =>
  value == null ? '' : `<${name}>${value}</${name}>`;

/** By the official encoder; `stops` are seconds at which the timer was stopped and started again. */
export function fitFile(
  seconds: readonly WrittenSecond[],
  stops: readonly (readonly [stopped: number, started: number])[] = [],
): Uint8Array {
  const encoder = new Encoder();
  const write = (number: number, message: FileIdMesg | EventMesg | RecordMesg): void => {
    encoder.onMesg(number, message);
  };
  const at = (second: number): Date => new Date(startMs + second * 1000);
  write(fileId, { type: 'activity', manufacturer: 'development', timeCreated: at(0) });
  write(event, { timestamp: at(0), event: 'timer', eventType: 'start' });
  const events = stops.flatMap(([stopped, started]): { second: number; eventType: 'stopAll' | 'start' }[] => [
    { second: stopped, eventType: 'stopAll' },
    { second: started, eventType: 'start' },
  ]);
  for (const { second, powerW, cadenceRpm, heartRateBpm, speedMps, altitudeM } of seconds) {
    for (; events[0] !== undefined && events[0].second <= second; events.shift()) {
      write(event, { timestamp: at(events[0].second), event: 'timer', eventType: events[0].eventType });
    }
    write(record, {
      timestamp: at(second),
      ...(powerW === null ? {} : { power: powerW }),
      ...(cadenceRpm === undefined ? {} : { cadence: cadenceRpm }),
      ...(heartRateBpm === undefined ? {} : { heartRate: heartRateBpm }),
      ...(speedMps === undefined ? {} : { speed: speedMps }),
      ...(altitudeM === undefined ? {} : { altitude: altitudeM }),
    });
  }
  return encoder.close();
}

export function tcxFile(seconds: readonly WrittenSecond[]): string {
  const points = seconds.map(
    ({ second, powerW, cadenceRpm, heartRateBpm, speedMps, altitudeM }) =>
      `<Trackpoint><Time>${isoAt(second)}</Time>${element('AltitudeMeters', altitudeM)}` +
      (heartRateBpm === undefined ? '' : `<HeartRateBpm>${element('Value', heartRateBpm)}</HeartRateBpm>`) +
      element('Cadence', cadenceRpm) +
      `<Extensions><x:TPX xmlns:x="http://www.garmin.com/xmlschemas/ActivityExtension/v2">` +
      `${element('x:Speed', speedMps)}${element('x:Watts', powerW)}</x:TPX></Extensions></Trackpoint>`,
  );
  return (
    '<?xml version="1.0" encoding="UTF-8"?>' +
    '<TrainingCenterDatabase xmlns="http://www.garmin.com/xmlschemas/TrainingCenterDatabase/v2"><Activities>' +
    `<Activity Sport="Biking"><Id>${isoAt(0)}</Id><Lap StartTime="${isoAt(0)}"><DistanceMeters>99999</DistanceMeters>` +
    `<Cadence>77</Cadence><Track>${points.join('\n')}</Track></Lap></Activity></Activities></TrainingCenterDatabase>`
  );
}

export function gpxFile(seconds: readonly WrittenSecond[]): string {
  const points = seconds.map(
    ({ second, powerW, cadenceRpm, heartRateBpm, speedMps, altitudeM }) =>
      `<trkpt lat="47.5" lon="8.7">${element('ele', altitudeM)}<time>${isoAt(second)}</time><extensions>` +
      `<gpxpx:PowerExtension>${element('gpxpx:PowerInWatts', powerW)}</gpxpx:PowerExtension>` +
      `<gpxtpx:TrackPointExtension>${element('gpxtpx:hr', heartRateBpm)}${element('gpxtpx:cad', cadenceRpm)}` +
      `${element('gpxtpx:speed', speedMps)}</gpxtpx:TrackPointExtension></extensions></trkpt>`,
  );
  return (
    '<?xml version="1.0"?><gpx version="1.1" xmlns="http://www.topografix.com/GPX/1/1" ' +
    'xmlns:gpxpx="http://www.garmin.com/xmlschemas/PowerExtension/v1" ' +
    'xmlns:gpxtpx="http://www.garmin.com/xmlschemas/TrackPointExtension/v2">' +
    `<metadata><time>${isoAt(-60)}</time></metadata><trk><trkseg>${points.join('\n')}</trkseg></trk></gpx>`
  );
}

export function csvFile(seconds: readonly WrittenSecond[]): string {
  const cell = (value: number | null | undefined): string => (value == null ? '' : String(value));
  const rows = seconds.map(({ second, powerW, cadenceRpm, heartRateBpm, speedMps, altitudeM }) =>
    [isoAt(second), ...[powerW, cadenceRpm, heartRateBpm, speedMps, altitudeM].map(cell)].join(','),
  );
  return ['time,power_w,cadence_rpm,heart_rate_bpm,speed_mps,altitude_m', ...rows].join('\n');
}

export const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);

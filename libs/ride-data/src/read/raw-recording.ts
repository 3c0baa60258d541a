import type { Channels, DeviceSummary, RideFormat, RideNote } from '../ride-recording.js';

/** One record as the file has it. */
export interface RawSample extends Channels {
  readonly atMs: number;
}

/** What a format's reader hands on. */
export interface RawRecording {
  readonly format: RideFormat;
  readonly samples: readonly RawSample[];
  /** Whether `atMs` is Unix time; otherwise it counts from an unknown moment. */
  readonly clockIsSet: boolean;
  readonly utcOffsetMinutes: number | null;
  /** When the device says that it was stopped. */
  readonly stops: readonly { readonly fromMs: number; readonly toMs: number }[];
  readonly device: DeviceSummary | null;
  readonly notes: readonly RideNote[];
}

export const nothingRecorded: Channels = {
  powerW: null,
  cadenceRpm: null,
  speedMps: null,
  altitudeM: null,
  heartRateBpm: null,
  distanceM: null,
  latitudeDeg: null,
  longitudeDeg: null,
};

export type RideFormat = 'fit' | 'tcx' | 'gpx' | 'csv';

/** What can be known of one second. Null = not recorded, which is not zero. */
export interface Channels {
  /** 0 when coasting. */
  readonly powerW: number | null;
  readonly cadenceRpm: number | null;
  readonly speedMps: number | null;
  readonly altitudeM: number | null;
  readonly heartRateBpm: number | null;
  /** From the start of the recording. */
  readonly distanceM: number | null;
  /** WGS 84; north is positive. */
  readonly latitudeDeg: number | null;
  /** WGS 84; east is positive. */
  readonly longitudeDeg: number | null;
}

export interface RideSample extends Channels {
  /** Whole seconds since the first sample. */
  readonly second: number;
}

/** Seconds between two samples, neither of them included. */
export interface Gap {
  /** The last second recorded before it. */
  readonly afterSecond: number;
  /** The first second recorded after it. */
  readonly untilSecond: number;
  /** Whether the device says that it was stopped; otherwise records are simply not there. */
  readonly paused: boolean;
}

export type RideNoteCode =
  | 'no-power-meter'
  | 'duplicate-stamps'
  | 'backward-stamps'
  | 'untimed-records'
  | 'impossible-values'
  | 'power-spikes'
  | 'power-dropouts'
  | 'wide-steps'
  | 'zone-assumed'
  | 'clock-not-set'
  | 'checksum-wrong'
  | 'columns-not-read';

/** Something the reader should know about the recording. */
export interface RideNote {
  readonly code: RideNoteCode;
  /** How many seconds, records or columns it concerns; null where it concerns the whole recording. */
  readonly count: number | null;
  readonly sentence: string;
}

/** What the device wrote as its own summary; made from inner samples, so it may differ from the series. */
export interface DeviceSummary {
  readonly meanPowerW: number | null;
  readonly maxPowerW: number | null;
}

/** One ride as one series, the same whatever the format. */
export interface RideRecording {
  readonly format: RideFormat;
  /** By the device's own clock; null when the recording only counts seconds, or the clock was never set. */
  readonly startedAt: Date | null;
  /** Local time minus UTC where the ride was; null when the recording does not say. */
  readonly utcOffsetMinutes: number | null;
  /** From first to last sample, both counted. */
  readonly durationS: number;
  /** Ascending, at most one per second. */
  readonly samples: readonly RideSample[];
  /** Every step of more than one second. */
  readonly gaps: readonly Gap[];
  /** False without any power above zero: no meter, or one that never woke. */
  readonly hasPower: boolean;
  readonly device: DeviceSummary | null;
  readonly notes: readonly RideNote[];
}

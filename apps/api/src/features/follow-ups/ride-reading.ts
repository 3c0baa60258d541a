import {
  best20Minutes,
  gapPolicies,
  readRide,
  RideDataError,
  sprint,
  usualOnsetShareOfPeak,
  type ReadLimits,
} from '@studio/ride-data';
import type { RideRecordingRow } from '@studio/database';

/** Room for a long day on the road; read while the client waits. House rule. */
export const rideLimits: ReadLimits = {
  sentBytes: 16 * 1024 ** 2,
  unpackedBytes: 64 * 1024 ** 2,
  archiveEntries: 20,
  entries: 100_000,
  xmlDepth: 32,
  spanS: 36 * 3600,
};

/** A device's clock may be set to another zone. */
const clockToleranceMs = 86_400_000;
/** Power of a person over 20 minutes, as the questions have it, W. */
const credible20MinW = { low: 20, high: 700 };

export type RideReading = Pick<
  RideRecordingRow,
  | 'format'
  | 'startedAt'
  | 'durationS'
  | 'power20MinW'
  | 'power20MinWords'
  | 'sprintPeakW'
  | 'sprint5sW'
  | 'notes'
>;

/** Why a recording is not kept, in words for who sent it. */
export class RideRefused extends Error {
  override readonly name = 'RideRefused';
}

/**
 * What a recording says of a ride since the fit: the best 20 minutes without a stop, and the highest sprint.
 *
 * @param between the fit, and now
 * @throws RideRefused for one that cannot be read, or that cannot be told to be from after the fit
 */
export async function readRideSince(
  content: Buffer,
  between: { fit: Date; now: Date },
): Promise<RideReading> {
  const ride = await read(content);
  const { format, startedAt, durationS, hasPower, notes } = ride;
  if (startedAt === null) {
    throw new RideRefused(
      'It does not say when it was ridden, so it cannot be told from a ride before your fit.',
    );
  }
  if (startedAt < between.fit) throw new RideRefused('By its date this ride was before your fit.');
  if (startedAt.getTime() > between.now.getTime() + clockToleranceMs) {
    throw new RideRefused('By its date this ride is still to come, so its date cannot be right.');
  }
  const { best, sentence } = best20Minutes(ride, gapPolicies.uninterrupted);
  const isCredible = best === null || (best.meanW >= credible20MinW.low && best.meanW <= credible20MinW.high);
  const whole = { fromSecond: 0, toSecond: durationS };
  const { peak1sW, peak5sW } = sprint(ride, whole, usualOnsetShareOfPeak);
  return {
    ...{ format, startedAt, durationS },
    power20MinW: isCredible ? (best?.meanW ?? null) : null,
    power20MinWords: isCredible
      ? sentence
      : `No 20-minute power: ${best.meanW.toFixed(0)} W cannot be right.`,
    sprintPeakW: hasPower ? peak1sW : null,
    sprint5sW: hasPower ? peak5sW : null,
    notes: notes.map((note) => note.sentence),
  };
}

async function read(content: Buffer): ReturnType<typeof readRide> {
  try {
    return await readRide([content], rideLimits);
  } catch (error) {
    throw error instanceof RideDataError ? new RideRefused(error.message) : error;
  }
}

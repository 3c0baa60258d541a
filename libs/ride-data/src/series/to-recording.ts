import { RideDataError } from '../errors.js';
import type { ReadLimits } from '../limits.js';
import type { RawRecording } from '../read/raw-recording.js';
import type { RideNote, RideNoteCode, RideRecording } from '../ride-recording.js';
import { gapsOf } from './gaps.js';
import { onePerSecond } from './one-per-second.js';
import { plausible } from './plausible.js';
import { powerDropoutSeconds, withoutSpikes } from './power-faults.js';

/**
 * The one series all questions are asked of, with everything told that was mended or looks odd.
 *
 * @throws RideDataError `ride.empty`, `ride.clock-unusable`, `ride.too-long`
 */
export function toRecording(raw: RawRecording, limits: ReadLimits): RideRecording {
  if (raw.samples.length === 0) throw new RideDataError('ride.empty', 'The recording holds no records.');
  const possible = plausible(raw.samples);
  const ordered = onePerSecond(possible.samples);
  const { samples, spikes } = withoutSpikes(ordered.samples);
  const durationS = (samples.at(-1)?.second ?? 0) + 1;
  if (durationS > limits.spanS) {
    throw new RideDataError('ride.too-long', `The recording spans more than ${limits.spanS} seconds.`);
  }
  const gaps = gapsOf(samples, raw.stops, ordered.startSecond);
  const hasPower = samples.some(({ powerW }) => powerW !== null && powerW > 0);
  const dropouts = hasPower ? powerDropoutSeconds(samples).length : 0;
  const wideSteps = gaps.filter(({ paused }) => !paused).length;
  return {
    format: raw.format,
    startedAt: raw.clockIsSet ? new Date(ordered.startSecond * 1000) : null,
    utcOffsetMinutes: raw.utcOffsetMinutes,
    durationS,
    samples,
    gaps,
    hasPower,
    device: raw.device,
    notes: [
      ...raw.notes,
      ...(raw.clockIsSet ? [] : [clockNotSet]),
      ...(hasPower ? [] : [noPowerMeter]),
      ...counted(
        'duplicate-stamps',
        ordered.duplicates,
        'Records in the same second as another, averaged with it',
      ),
      ...counted('backward-stamps', ordered.backward, 'Records that ran backwards in time, left out'),
      ...counted(
        'impossible-values',
        possible.impossible,
        'Records with an impossible value, which counts as missing',
      ),
      ...counted(
        'power-spikes',
        spikes,
        'Lone seconds of power far above both neighbours, which count as missing',
      ),
      ...counted(
        'power-dropouts',
        dropouts,
        'Seconds of 0 W with the pedals turning: the meter may have lost contact',
      ),
      ...counted('wide-steps', wideSteps, 'Steps longer than a second without a stop of the device'),
    ],
  };
}

const clockNotSet: RideNote = {
  code: 'clock-not-set',
  count: null,
  sentence: 'The recording does not say when it began.',
};

const noPowerMeter: RideNote = {
  code: 'no-power-meter',
  count: null,
  sentence: 'There is no power above zero: no meter was used, or it never woke.',
};

const counted = (code: RideNoteCode, count: number, what: string): RideNote[] =>
  count === 0 ? [] : [{ code, count, sentence: `${what}: ${count}.` }];

import { ChangedMeanwhile } from '../fit-sessions.errors.js';

/** How a thing in versions is asked for the one its writer saw. */
export const basedOnField = {
  min: 0,
  max: 1_000_000,
  optional: true,
  description:
    'The version the writer had seen, 0 for none. 409 `fit-sessions.changed-meanwhile` when somebody else has written ' +
    'another since. Absent: not asked.',
  example: 0,
} as const;

/** The version that stands, and the device that wrote it. */
export interface Standing {
  readonly version: number;
  readonly deviceId: string | null;
}

/**
 * Let a change through unless somebody else changed the thing since the writer saw it. What the same device wrote before
 * it has seen by itself.
 *
 * @param standing null when there is none yet
 * @param basedOn the version the writer saw, 0 for none; undefined: not asked
 * @param values what stands, for the writer to compare
 * @returns the version the change makes
 * @throws ChangedMeanwhile
 */
export function nextVersion(
  standing: Standing | null,
  basedOn: number | undefined,
  deviceId: string | null,
  values: object | null,
): number {
  const version = standing?.version ?? 0;
  const own = deviceId !== null && standing?.deviceId === deviceId;
  if (basedOn !== undefined && basedOn !== version && !own) throw new ChangedMeanwhile(version, values);
  return version + 1;
}

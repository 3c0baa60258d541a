import { ChangedMeanwhile } from '../fit-sessions.errors.js';

/** A thing in versions, by whom the one that stands was written. */
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
export async function nextVersion(
  standing: Standing | null,
  basedOn: number | undefined,
  deviceId: string | null,
  values: () => Promise<object>,
): Promise<number> {
  const version = standing?.version ?? 0;
  const own = deviceId !== null && standing?.deviceId === deviceId;
  if (basedOn !== undefined && basedOn !== version && !own) {
    throw new ChangedMeanwhile(version, standing && (await values()));
  }
  return version + 1;
}

import { strictest, type Permission } from '@studio/clinical-flags';
import type { ScreeningRecord } from './screenings.dto.js';

export interface PermissionInForce {
  readonly permission: Permission;
  /** The screening that decides: the newest of those that bar most. */
  readonly screening: ScreeningRecord;
}

/**
 * What a client may do now. A raised finding stands until its screening is cleared; what a later screening could not
 * tell, or was not asked, never lifts it. Open questions count in the newest screening only, cleared or not: a newer
 * one fills the gaps of an older one, a clearance does not.
 *
 * @param screenings of one client, newest first
 */
export function permissionInForce(screenings: readonly ScreeningRecord[]): PermissionInForce | null {
  const [newest] = screenings;
  if (!newest) return null;
  const standing = screenings.map((screening) => ({
    screening,
    permission: strictest(
      screening.result.findings
        .filter(
          ({ result }) =>
            (result === 'raised' && !screening.cleared) || (result === 'cannot_tell' && screening === newest),
        )
        .map((finding) => finding.permission),
    ),
  }));
  const permission = strictest(standing.map((item) => item.permission));
  const deciding = standing.find((item) => item.permission.level === permission.level);
  return { permission, screening: deciding?.screening ?? newest };
}

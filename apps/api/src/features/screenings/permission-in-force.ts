import {
  activities,
  strictest,
  type Activity,
  type Evaluation,
  type Finding,
  type Permission,
} from '@studio/clinical-flags';

/** A raised finding as a row, with what clearances that stand today allow again. */
export interface RaisedFinding {
  readonly id: string;
  readonly screeningId: string;
  readonly finding: Finding;
  /** Null: no clearance speaks of it. */
  readonly clearedScope: readonly Activity[] | null;
}

export interface PermissionInForce {
  readonly permission: Permission;
  /** Every raised finding with what it still bars, newest first. */
  readonly standing: readonly { readonly id: string; readonly finding: Finding }[];
  readonly newest: NewestScreening;
  /** Facts that are asked for and not known. */
  readonly openFacts: readonly string[];
}

export interface NewestScreening {
  readonly id: string;
  readonly result: Evaluation;
}

/**
 * What a client may do now: the strictest of all that stands. A raised finding stands until it is cleared, on whatever
 * occasion it was raised; what a later screening could not tell, or was not asked, never lifts it. Open questions count
 * in the newest screening only, cleared or not: a newer one fills the gaps of an older one, a clearance does not.
 *
 * @param raised of one client, newest first
 * @param newest the client's newest screening; of several records that were merged each its own, the newest first
 */
export function permissionInForce(
  raised: readonly RaisedFinding[],
  newest: readonly [NewestScreening, ...NewestScreening[]],
): PermissionInForce {
  const standing = raised.map(({ id, finding, clearedScope }) => ({
    id,
    finding: { ...finding, permission: stillBarred(finding.permission, clearedScope) },
  }));
  const open = newest
    .flatMap(({ result }) => result.findings)
    .filter(({ result }) => result === 'cannot_tell');
  const permission = strictest(
    [...standing.map(({ finding }) => finding), ...open].map((finding) => finding.permission),
  );
  const openFacts = [...new Set(newest.flatMap(({ result }) => result.openFacts))];
  return { permission, standing, newest: newest[0], openFacts };
}

/** What a finding bars beyond what was cleared; a clearance that names less than all leaves the rest barred. */
export function stillBarred(permission: Permission, clearedScope: readonly Activity[] | null): Permission {
  if (clearedScope === null) return permission;
  const barred = activities.filter(
    (activity) =>
      (permission.level === 'none' || permission.barred.includes(activity)) &&
      !clearedScope.includes(activity),
  );
  if (barred.length === 0) return { level: 'full', barred };
  return { level: barred.length === activities.length ? 'none' : 'limited', barred };
}

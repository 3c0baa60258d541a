import type { Role } from '@studio/database';

/** A role, or what an owner confirmed of a fitter: that they are a licensed clinician. */
export type Grant = Role | 'clinician';

/** One row of the table: who may use an operation. */
export interface Permission {
  /** Any one of these grants it; `anyone` needs no sign-in. */
  readonly who: readonly Grant[] | 'anyone';
  /** Only the person, not a program with the person's key: what gives or takes away ways in. */
  readonly inPerson?: true;
  /**
   * It shows a person's health. Who read it is written down, and of somebody who had their record restricted it is
   * withheld.
   */
  readonly health?: true;
}

/** What is known of who asks. */
export interface Asking {
  readonly roles: readonly Role[];
  readonly clinician?: boolean;
  /** There when it is a program with a key of the person. */
  readonly program?: { readonly readOnly: boolean };
}

/** The mark of a clinician counts beside the role of a fitter, and is not handed on to programs. */
export const grantsOf = ({ roles, clinician = false, program }: Asking): readonly Grant[] =>
  clinician && !program && roles.includes('fitter') ? [...roles, 'clinician'] : roles;

export type Refusal = 'role' | 'program';

/** Why somebody may not use an operation; null when they may. */
export function refusal(permission: Permission, asking: Asking, method: string): Refusal | null {
  const { who, inPerson = false } = permission;
  if (who === 'anyone') return null;
  const grants = grantsOf(asking);
  if (!who.some((grant) => grants.includes(grant))) return 'role';
  if (!asking.program) return null;
  if (inPerson) return 'program';
  const isRead = method === 'GET' || method === 'HEAD';
  return asking.program.readOnly && !isRead ? 'role' : null;
}

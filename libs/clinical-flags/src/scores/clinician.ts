import type { Clinician, Finding } from '../finding.js';

/** What a clinician's values come to: never shown to a client, and never a reason to do less. */
export interface ClinicianScore {
  readonly findings: readonly Finding[];
}

/** A value a clinician's form cannot take. */
export class ClinicianInputInvalid extends RangeError {
  override readonly name = 'ClinicianInputInvalid';

  constructor(
    readonly field: string,
    message: string,
  ) {
    super(`${field} ${message}`);
  }
}

/** What a raised finding of a score says; the rest is the same for all. */
export type Raised = Pick<
  Finding,
  | 'ruleId'
  | 'area'
  | 'route'
  | 'permission'
  | 'messageForClient'
  | 'messageForStaff'
  | 'wouldChange'
  | 'source'
>;

/** A finding that a licensed clinician answers for. */
export const raisedBy = (clinician: Clinician, raised: Raised): Finding => ({
  ruleVersion: 1,
  result: 'raised',
  because: [],
  openFacts: [],
  unchanged: false,
  suppliedBy: clinician,
  ...raised,
});

/** @throws ClinicianInputInvalid when nobody is named or no registration is given */
export function requireClinician(clinician: Clinician): void {
  for (const field of ['name', 'registration'] as const) {
    if (clinician[field].trim() === '')
      throw new ClinicianInputInvalid(`clinician.${field}`, 'must be given');
  }
}

/** @throws ClinicianInputInvalid unless it is a whole number from `min` to `max` */
export function requireWhole(field: string, value: unknown, min: number, max: number): number {
  if (typeof value !== 'number' || !Number.isInteger(value) || value < min || value > max) {
    throw new ClinicianInputInvalid(field, `must be a whole number from ${min} to ${max}`);
  }
  return value;
}

import type { Condition } from './condition.js';

/** From most to least pressing. */
export const routes = [
  'emergency_now',
  'same_day_medical',
  'gp_within_days',
  'gp_for_vascular_specialist',
  'physiotherapist_or_podiatrist',
  'fit_with_caution',
] as const;
export type Route = (typeof routes)[number];

/** What a limited permission can bar. */
export const activities = [
  'riding',
  'hard_effort',
  'provocation_test',
  'saddle_trial',
  'cleat_change',
  'wedge_or_shim',
  'shoe_work',
  'bonding',
] as const;
export type Activity = (typeof activities)[number];

export type PermissionLevel = 'none' | 'limited' | 'full';

export interface Permission {
  readonly level: PermissionLevel;
  /** What is barred: everything when `none`, nothing when `full`. */
  readonly barred: readonly Activity[];
}

export type Area =
  | 'heart'
  | 'clot'
  | 'artery'
  | 'spine'
  | 'nerve'
  | 'joint_and_bone'
  | 'compartment'
  | 'foot_and_skin'
  | 'diabetes'
  | 'medicines'
  | 'pregnancy'
  | 'after_surgery'
  | 'general';

export interface Source {
  readonly strength: 'guideline' | 'study' | 'expert opinion' | 'common practice';
  /** What it rests on; what of it is common practice without a source is said so. */
  readonly citation: string;
}

/** A routing rule. It names who should look at a complaint; it says nothing about what the complaint is. */
export interface Rule {
  /** Kebab case, the file's name. */
  readonly id: string;
  readonly version: number;
  readonly area: Area;
  /** Absent: it concerns everyone. */
  readonly appliesWhen?: Condition;
  readonly raisedWhen: Condition;
  readonly route: Route;
  readonly permission: Permission;
  readonly messageForClient: string;
  readonly messageForStaff: string;
  /** What would change the result. */
  readonly wouldChange: string;
  readonly source: Source;
}

export const barsEverything: Permission = { level: 'none', barred: activities };
export const barsNothing: Permission = { level: 'full', barred: [] };
export const limitedTo = (...barred: Activity[]): Permission => ({ level: 'limited', barred });

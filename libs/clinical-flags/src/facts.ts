import type { SiteAndSide } from './questions/body-sites.js';

/** `unknown` is the answer "don't know"; a fact that is absent was never answered. */
export type YesNo = 'yes' | 'no' | 'unknown';

/** `none`: an earlier answer made the question needless, so there is nothing of the kind. */
export type NumberFact = number | 'unknown' | 'none';
export type ChoiceFact = string | readonly string[];

/** Asked anew for each body site that was named. */
export const siteFacts = [
  'complaint_quality',
  'complaint_when',
  'complaint_duration',
  'complaint_worst',
  'complaint_rises',
] as const;
export type SiteFactId = (typeof siteFacts)[number];

export type YesNoFactId =
  | 'anything_new'
  | 'chest_pain'
  | 'chest_pain_older'
  | 'breathless_at_rest'
  | 'passed_out_lately'
  | 'passed_out_on_effort'
  | 'cleared_for_hard_exercise'
  | 'leg_swelling_one_sided_new'
  | 'leg_hot_or_red'
  | 'coughed_blood'
  | 'calf_newly_thicker'
  | 'both_ankles_swollen'
  | 'clot_cleared'
  | 'leg_suddenly_cold_or_pale'
  | 'foot_pain_at_rest'
  | 'calf_pain_on_walking'
  | 'thigh_or_buttock_pain_on_walking'
  | 'circulation_cleared'
  | 'one_leg_fades_on_hard_effort'
  | 'one_leg_settles_at_rest'
  | 'one_leg_cold_or_pale_after_effort'
  | 'one_leg_fades_at_ordinary_load'
  | 'leg_artery_operated'
  | 'leg_artery_surgeon_agrees'
  | 'back_pain'
  | 'back_pain_new_or_worse'
  | 'back_pain_down_one_leg'
  | 'saddle_numb'
  | 'saddle_numb_new_or_worse'
  | 'saddle_numb_day_after'
  | 'saddle_numb_despite_changes'
  | 'pelvic_pain_sitting'
  | 'bladder_or_bowel_change'
  | 'both_legs_weak_or_numb'
  | 'sexual_change'
  | 'foot_drops_or_leg_weaker'
  | 'unsteady_walking'
  | 'hands_clumsy_or_both_numb'
  | 'fever_with_back_or_joint_pain'
  | 'sudden_face_arm_or_speech'
  | 'hands_tingle_on_bike'
  | 'hands_numb_all_the_time'
  | 'grip_weak'
  | 'outer_thigh_numb'
  | 'leg_numb_one_side'
  | 'feet_numb_like_socks'
  | 'foot_numb_on_bike'
  | 'foot_numb_off_bike'
  | 'toes_burn_between'
  | 'toes_white_in_cold'
  | 'joint_hot_and_swollen'
  | 'injury_recent'
  | 'knee_locks_or_gives_way'
  | 'calf_snapped'
  | 'bone_pain_on_loading'
  | 'limb_tense_and_worsening'
  | 'both_lower_legs_tight_on_effort'
  | 'unchanged_after_two_fits'
  | 'surgeon_allows_riding'
  | 'skin_fragile'
  | 'leg_lengths_differ'
  | 'guardian_agrees'
  | 'shoe_cracked_or_recalled'
  | 'complaint_rises';

export type NumberFactId =
  | 'age_years'
  | 'chest_pain_hours_ago'
  | 'calf_girth_difference_mm'
  | 'outer_thigh_numb_weeks'
  | 'active_days_per_week'
  | 'active_minutes_per_day'
  | 'active_months'
  | 'cleared_months_ago'
  | 'leg_length_difference_mm'
  | 'complaint_worst';

export type ChoiceFactId =
  | 'new_about'
  | 'heart_signs'
  | 'injury_signs'
  | 'body_signs'
  | 'foot_signs'
  | 'cold_toe_signs'
  | 'leg_length_signs'
  | 'medical_conditions'
  | 'recent_events'
  | 'medicines'
  | 'allergies'
  | 'complaint_sites'
  | 'complaint_quality'
  | 'complaint_when'
  | 'complaint_duration';

export type FactId = YesNoFactId | NumberFactId | ChoiceFactId;

/** A fact of one body site, as answers and facts name it. */
export type SiteFactKey = `${SiteFactId}@${SiteAndSide}`;
export type FactKey = Exclude<FactId, SiteFactId> | SiteFactKey;

type ValueOf<Id> = Id extends YesNoFactId ? YesNo : Id extends NumberFactId ? NumberFact : ChoiceFact;

/** Everything the rules read, flat and JSON-able. Every fact is asked by a question of some set. */
export type Facts = {
  readonly [Key in FactKey]?: Key extends `${infer Id}@${string}` ? ValueOf<Id> : ValueOf<Key>;
};

/** The value of a fact, of one body site when it is asked of each. */
export function valueOf(facts: Facts, id: FactId, site?: SiteAndSide): Facts[FactKey] {
  return facts[keyOf(id, site)];
}

export const keyOf = (id: FactId, site?: SiteAndSide): FactKey =>
  (site === undefined ? id : `${id}@${site}`) as FactKey;

/** `unknown` is the answer "don't know"; a fact that is absent was never answered. */
export type YesNo = 'yes' | 'no' | 'unknown';

/** Everything the rules read. Every fact is asked by a question of some set. */
export interface Facts {
  readonly leg_swelling_one_sided_new?: YesNo;
  readonly saddle_numb?: YesNo;
  readonly saddle_numb_day_after?: YesNo;
  readonly bladder_or_bowel_change?: YesNo;
  readonly both_legs_weak_or_numb?: YesNo;
  readonly one_leg_fades_on_hard_effort?: YesNo;
  readonly one_leg_settles_at_rest?: YesNo;
  readonly calf_pain_on_walking?: YesNo;
  readonly foot_numb_on_bike?: YesNo;
  readonly foot_numb_off_bike?: YesNo;
  readonly chest_pain?: YesNo;
}

export type FactId = keyof Facts;

import type { SectionOf } from '../question-set.js';

export const backSaddleAndNerves: SectionOf = {
  id: 'back-saddle-and-nerves',
  title: 'Back, saddle, hands and feeling',
  questions: [
    { kind: 'yes_no', id: 'back_pain', text: 'Do you have pain in your back, or pain running down a leg?' },
    {
      kind: 'yes_no',
      id: 'back_pain_new_or_worse',
      text: 'Did that pain begin in the last two weeks, or is it getting worse?',
      onlyWhen: { yes: 'back_pain' },
    },
    {
      kind: 'yes_no',
      id: 'back_pain_down_one_leg',
      text: 'Does pain or tingling run from your back down one leg?',
      onlyWhen: { yes: 'back_pain' },
    },
    { kind: 'yes_no', id: 'saddle_numb', text: 'Does the area you sit on ever go numb?' },
    {
      kind: 'yes_no',
      id: 'saddle_numb_new_or_worse',
      text: 'Did that numbness begin in the last two weeks, or is it getting worse?',
      onlyWhen: { yes: 'saddle_numb' },
    },
    {
      kind: 'yes_no',
      id: 'saddle_numb_day_after',
      text: 'Is that area still numb a day after riding, or numb without having ridden?',
      onlyWhen: { yes: 'saddle_numb' },
    },
    {
      kind: 'yes_no',
      id: 'saddle_numb_despite_changes',
      text: 'Does it come back although saddle or position were changed?',
      onlyWhen: { yes: 'saddle_numb' },
    },
    {
      kind: 'yes_no',
      id: 'pelvic_pain_sitting',
      text: 'Do you have pain between the legs that sitting makes worse?',
    },
    {
      kind: 'yes_no',
      id: 'bladder_or_bowel_change',
      text: 'Has anything changed lately in passing urine or stool, or in feeling when you need to?',
    },
    {
      kind: 'yes_no',
      id: 'both_legs_weak_or_numb',
      text: 'Have both your legs become weak, numb or painful lately?',
    },
    {
      kind: 'yes_no',
      id: 'sexual_change',
      text: 'Has anything changed lately in sexual function or feeling?',
      help: 'The nerves that are asked about here serve both. You may answer “don’t know”.',
    },
    {
      kind: 'yes_no',
      id: 'foot_drops_or_leg_weaker',
      text: 'Does a foot drop when you walk, or is a leg or arm getting weaker?',
    },
    { kind: 'yes_no', id: 'unsteady_walking', text: 'Have you become unsteady on your feet?' },
    {
      kind: 'yes_no',
      id: 'hands_clumsy_or_both_numb',
      text: 'Have your hands become clumsy, or are both of them numb?',
    },
    {
      kind: 'yes_no',
      id: 'hands_tingle_on_bike',
      text: 'Do your hands tingle or go numb while riding?',
    },
    { kind: 'yes_no', id: 'hands_numb_all_the_time', text: 'Is a hand numb all the time?' },
    {
      kind: 'yes_no',
      id: 'grip_weak',
      text: 'Is your grip or pinch weak, or has the ball of a thumb become thinner?',
    },
    {
      kind: 'yes_no',
      id: 'outer_thigh_numb',
      text: 'Is the outside or front of a thigh numb or tingling?',
    },
    {
      kind: 'number',
      id: 'outer_thigh_numb_weeks',
      text: 'For how many weeks?',
      onlyWhen: { yes: 'outer_thigh_numb' },
      min: 0,
      max: 5200,
      unit: 'weeks',
    },
    { kind: 'yes_no', id: 'leg_numb_one_side', text: 'Is a leg numb, other than the outside of the thigh?' },
  ],
};

import type { SectionOf } from '../question-set.js';

export const legs: SectionOf = {
  id: 'legs',
  title: 'Your legs',
  questions: [
    {
      kind: 'yes_no',
      id: 'leg_suddenly_cold_or_pale',
      text: 'Has a leg or foot suddenly become cold or pale, with pain, numbness or weakness?',
    },
    {
      kind: 'yes_no',
      id: 'limb_tense_and_worsening',
      text: 'Is a leg or arm hard and tense, with pain that keeps growing even at rest?',
    },
    {
      kind: 'yes_no',
      id: 'leg_swelling_one_sided_new',
      text: 'Has one of your legs become swollen lately, and the other not?',
    },
    {
      kind: 'yes_no',
      id: 'leg_hot_or_red',
      text: 'Does a calf or thigh hurt and feel warm or look red, without an injury that explains it?',
    },
    {
      kind: 'yes_no',
      id: 'calf_newly_thicker',
      text: 'Is one calf newly thicker than the other, with or without pain?',
    },
    {
      kind: 'number',
      id: 'calf_girth_difference_mm',
      text: 'By how much, measured around the thickest part or ten centimetres below the knee?',
      help: 'Leave it to the studio if you have not measured it.',
      onlyWhen: { yes: 'calf_newly_thicker' },
      min: 0,
      max: 200,
      unit: 'mm',
    },
    {
      kind: 'yes_no',
      id: 'both_ankles_swollen',
      text: 'Are both your ankles often swollen, and have been for a while?',
    },
    {
      kind: 'yes_no',
      id: 'one_leg_fades_on_hard_effort',
      text: 'On hard efforts, does one leg (and not the other) hurt, swell or lose power?',
    },
    {
      kind: 'yes_no',
      id: 'one_leg_settles_at_rest',
      text: 'Does that leg settle within minutes when you ease off?',
      onlyWhen: { yes: 'one_leg_fades_on_hard_effort' },
    },
    {
      kind: 'yes_no',
      id: 'one_leg_cold_or_pale_after_effort',
      text: 'Does a leg or foot stay cold, pale or numb after an effort, and not come back within minutes?',
    },
    {
      kind: 'yes_no',
      id: 'one_leg_fades_at_ordinary_load',
      text: 'Does one leg also do that at an ordinary pace?',
      onlyWhen: { yes: 'one_leg_fades_on_hard_effort' },
    },
    {
      kind: 'yes_no',
      id: 'calf_pain_on_walking',
      text: 'Do your calves hurt when you walk at an ordinary pace?',
    },
    {
      kind: 'yes_no',
      id: 'thigh_or_buttock_pain_on_walking',
      text: 'Do your thighs or buttocks hurt when you walk, and stop hurting when you stand still?',
    },
    {
      kind: 'yes_no',
      id: 'foot_pain_at_rest',
      text: 'Does the front of a foot hurt at rest or at night, and less when it hangs down?',
    },
    {
      kind: 'yes_no',
      id: 'both_lower_legs_tight_on_effort',
      text: 'Do both lower legs become tight at about the same point of an effort, and ease within half an hour?',
    },
    {
      kind: 'yes_no',
      id: 'calf_snapped',
      text: 'Has something snapped in your calf or heel, so that you cannot push off with that foot?',
    },
    {
      kind: 'yes_no',
      id: 'leg_lengths_differ',
      text: 'Have you been told that your legs differ in length?',
    },
    {
      kind: 'number',
      id: 'leg_length_difference_mm',
      text: 'By how much?',
      onlyWhen: { yes: 'leg_lengths_differ' },
      min: 0,
      max: 150,
      unit: 'mm',
    },
    {
      kind: 'several_of',
      id: 'leg_length_signs',
      text: 'Which of these go with it?',
      onlyWhen: { yes: 'leg_lengths_differ' },
      options: [
        { id: 'new_or_growing', label: 'It is new or growing' },
        { id: 'after_surgery_or_fracture', label: 'It came after an operation or a broken bone' },
        { id: 'back_or_hip_pain', label: 'My back or hip hurts' },
        { id: 'weak_or_numb', label: 'The leg is weak or numb' },
      ],
    },
  ],
};

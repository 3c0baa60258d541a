import type { QuestionSet } from './question-set.js';

/** What everyone is asked before a fit. Own wording; no licensed scale. */
export const riderIntake = {
  id: 'rider-intake',
  version: '1',
  title: 'Before your fit',
  questions: [
    {
      id: 'chest_pain',
      text: 'Have you had pain, pressure or tightness in your chest today or in the last three days?',
    },
    {
      id: 'leg_swelling_one_sided_new',
      text: 'Has one of your legs become swollen lately, and the other not?',
    },
    { id: 'saddle_numb', text: 'Does the area you sit on ever go numb?' },
    {
      id: 'saddle_numb_day_after',
      text: 'Is that area still numb a day after riding, or numb without having ridden?',
      onlyAfter: ['saddle_numb'],
    },
    {
      id: 'bladder_or_bowel_change',
      text: 'Has anything changed lately in passing urine or stool, or in feeling when you need to?',
    },
    { id: 'both_legs_weak_or_numb', text: 'Have both your legs become weak, numb or painful lately?' },
    {
      id: 'one_leg_fades_on_hard_effort',
      text: 'On hard efforts, does one leg (and not the other) hurt, swell or lose power?',
    },
    {
      id: 'one_leg_settles_at_rest',
      text: 'Does that leg settle within minutes when you ease off?',
      onlyAfter: ['one_leg_fades_on_hard_effort'],
    },
    { id: 'calf_pain_on_walking', text: 'Do your calves hurt when you walk at an ordinary pace?' },
    { id: 'foot_numb_on_bike', text: 'Do your feet go numb or burn on the bike?' },
    { id: 'foot_numb_off_bike', text: 'Are your feet ever numb when you are off the bike?' },
  ],
} as const satisfies QuestionSet;

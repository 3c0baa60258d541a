import type { Question } from './question.js';
import { setOf, type QuestionSet } from './question-set.js';

const questions: readonly Question[] = [
  {
    kind: 'yes_no',
    id: 'chest_pain',
    text: 'Have you had pain, pressure or tightness in your chest today or in the last three days?',
  },
  {
    kind: 'yes_no',
    id: 'leg_swelling_one_sided_new',
    text: 'Has one of your legs become swollen lately, and the other not?',
  },
  { kind: 'yes_no', id: 'saddle_numb', text: 'Does the area you sit on ever go numb?' },
  {
    kind: 'yes_no',
    id: 'saddle_numb_day_after',
    text: 'Is that area still numb a day after riding, or numb without having ridden?',
    onlyWhen: { yes: 'saddle_numb' },
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
    id: 'calf_pain_on_walking',
    text: 'Do your calves hurt when you walk at an ordinary pace?',
  },
  { kind: 'yes_no', id: 'foot_numb_on_bike', text: 'Do your feet go numb or burn on the bike?' },
  { kind: 'yes_no', id: 'foot_numb_off_bike', text: 'Are your feet ever numb when you are off the bike?' },
];

/** Kept for the screenings that used it. */
export const riderIntakeV1: QuestionSet = setOf(
  { id: 'rider-intake', version: '1', title: 'Before your fit', scope: 'whole' },
  [{ id: 'health', title: 'Before your fit', questions }],
);

import type { Option, Question } from '../question.js';
import type { SectionOf } from '../question-set.js';
import { feet } from './feet.js';

// Own wording throughout. The scales are free constructs: numeric rating 0–10, comfort 0–100, activities named by the
// rider rated 0–10, change on eleven points.

const outOfTen = { kind: 'number', min: 0, max: 10, unit: 'of 10', context: true } as const;

const comfort: Question = {
  kind: 'number',
  id: 'comfort',
  context: true,
  text: 'How comfortable are you on the bike now?',
  help: '0 is not comfortable at all, 100 is as comfortable as you can imagine.',
  min: 0,
  max: 100,
  unit: 'of 100',
};

const walkingComfort: Question = {
  ...outOfTen,
  id: 'walking_comfort',
  text: 'How well can you walk in your cycling shoes?',
  help: '0 is not at all, 10 is as well as in any shoes.',
};

const feetOnTheBike = feet.questions.filter(({ id }) => id === 'foot_numb_on_bike');

/** The same, less what is asked of everyone here. */
export const otherFeet: SectionOf = {
  ...feet,
  questions: feet.questions.filter((question) => !feetOnTheBike.includes(question)),
};

export const onTheBike: SectionOf = {
  id: 'on-the-bike',
  title: 'How it is on the bike',
  intro: 'Leave empty what you cannot say, for instance because you have not ridden yet.',
  questions: [
    {
      ...outOfTen,
      id: 'pain',
      text: 'How bad was your worst pain on the bike in the last seven days?',
      help: '0 is no pain, 10 is as bad as you can imagine.',
    },
    ...feetOnTheBike,
    comfort,
    walkingComfort,
  ],
};

export const firstDaysOnTheBike: SectionOf = {
  ...onTheBike,
  questions: [...feetOnTheBike, comfort, walkingComfort],
};

/** Asked of who named something before the fit, each by the rider's own words. */
export const activityQuestions = ['activity_1', 'activity_2', 'activity_3'] as const;

export const ownActivities: SectionOf = {
  id: 'own-activities',
  title: 'What you wanted to do better',
  intro: 'You named this before your fit. 0 is not at all, 10 is as well as before the trouble began.',
  questions: activityQuestions.map((id, at) => ({
    ...outOfTen,
    id,
    text: `How well can you do the ${['first', 'second', 'third'][at]} thing you named?`,
  })),
};

const feel: readonly Option[] = [
  { id: 'much_better', label: 'Much better than before the fit' },
  { id: 'better', label: 'Better' },
  { id: 'same', label: 'The same' },
  { id: 'worse', label: 'Worse' },
  { id: 'much_worse', label: 'Much worse' },
  { id: 'not_tried', label: 'I have not tried' },
];

export const riding: SectionOf = {
  id: 'riding',
  title: 'What you have ridden',
  questions: [
    {
      kind: 'one_of',
      id: 'rides_since',
      context: true,
      text: 'How often have you ridden since your fit?',
      options: [
        { id: 'none', label: 'Not yet' },
        { id: 'one_to_three', label: 'One to three times' },
        { id: 'four_to_ten', label: 'Four to ten times' },
        { id: 'more', label: 'More often' },
      ],
    },
    {
      kind: 'number',
      id: 'longest_ride_hours',
      context: true,
      text: 'How long was the longest of these rides?',
      min: 0,
      max: 48,
      unit: 'hours',
      decimals: true,
    },
    { kind: 'one_of', id: 'sprint_feel', context: true, text: 'How does a sprint feel?', options: feel },
    {
      kind: 'one_of',
      id: 'standing_feel',
      context: true,
      text: 'How does riding out of the saddle feel?',
      options: feel,
    },
    {
      kind: 'number',
      id: 'saddle_height_mm',
      context: true,
      text: 'If you changed the height of your saddle since, what is it now?',
      help: 'From the middle of the crank axle to the top of the saddle. Leave it empty if you changed nothing.',
      min: 300,
      max: 1100,
      unit: 'mm',
      decimals: true,
    },
  ],
};

/** Only asked of who may ride hard. */
export const hardEfforts: SectionOf = {
  id: 'hard-efforts',
  title: 'If you measured it',
  intro: 'Only if you know it already. You need not ride hard for us.',
  questions: [
    {
      kind: 'number',
      id: 'power_20_min_w',
      context: true,
      text: 'What is the highest power you held for 20 minutes since your fit?',
      min: 20,
      max: 700,
      unit: 'W',
      decimals: true,
    },
    {
      kind: 'number',
      id: 'same_course_now_min',
      context: true,
      text: 'How long did you need, since your fit, for a course you also rode before?',
      min: 0.5,
      max: 1440,
      unit: 'minutes',
      decimals: true,
    },
    {
      kind: 'number',
      id: 'same_course_before_min',
      context: true,
      text: 'And how long for the same course before your fit?',
      min: 0.5,
      max: 1440,
      unit: 'minutes',
      decimals: true,
    },
  ],
};

const worry: Question = {
  kind: 'text',
  id: 'worry',
  context: true,
  text: 'Is there anything that worries you?',
  help: 'The people who fit you read it, in the next days; the front desk does not. Do not write here what cannot wait: see a doctor, or call your local emergency number.',
  maxLength: 2000,
};

export const worries: SectionOf = { id: 'worries', title: 'Anything else', questions: [worry] };

export const overall: SectionOf = {
  id: 'overall',
  title: 'All in all',
  questions: [
    {
      kind: 'one_of',
      id: 'overall_change',
      context: true,
      text: 'All in all, how has it changed since your fit?',
      options: [
        { id: '-5', label: '−5 – very much worse' },
        ...['-4', '-3', '-2', '-1'].map((id) => ({ id, label: id.replace('-', '−') })),
        { id: '0', label: '0 – not changed' },
        ...['1', '2', '3', '4'].map((id) => ({ id, label: `+${id}` })),
        { id: '5', label: '+5 – all good again' },
      ],
    },
    worry,
  ],
};

export const shoesAfterTheWork: SectionOf = {
  id: 'shoes',
  title: 'Your shoes after the first ride',
  intro: 'New bolts and plates settle on the first ride.',
  questions: [
    {
      kind: 'yes_no',
      id: 'bolts_checked',
      context: true,
      text: 'Were the bolts of your cleats checked with a torque wrench after the first ride?',
      warns: {
        on: 'no',
        advice: 'Have the bolts of your cleats checked with a torque wrench before you ride again.',
      },
    },
    {
      kind: 'yes_no',
      id: 'shoes_release',
      context: true,
      text: 'Do both shoes come out of the pedals every time, and easily?',
      warns: {
        on: 'no',
        advice: 'Do not ride in these shoes until the studio has checked that they come out of the pedals.',
      },
    },
    {
      kind: 'yes_no',
      id: 'shoes_loose',
      context: true,
      text: 'Does anything on the shoes move, creak or come loose?',
      warns: { on: 'yes', advice: 'Do not ride in these shoes until the studio has looked at them.' },
    },
  ],
};

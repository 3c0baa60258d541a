import type { Condition } from '../condition.js';
import { bodySites } from './body-sites.js';
import { setOf, type QuestionSet, type SectionOf } from './question-set.js';
import { backSaddleAndNerves } from './sections/back-saddle-nerves.js';
import { complaints } from './sections/complaints.js';
import { feet } from './sections/feet.js';
import { heartAndHead } from './sections/heart-and-head.js';
import { jointsAndInjuries } from './sections/joints-and-injuries.js';
import { legs } from './sections/legs.js';
import { medical } from './sections/medical.js';
import { medicines } from './sections/medicines.js';
import {
  firstDaysOnTheBike,
  hardEfforts,
  onTheBike,
  otherFeet,
  overall,
  ownActivities,
  riding,
  shoesAfterTheWork,
  worries,
} from './sections/since-the-fit.js';

/** Whether anything is new, and what it is about: only that is asked further. */
const anythingNew = (title: string, text: string): SectionOf => ({
  id: 'anything-new',
  title,
  questions: [
    {
      kind: 'yes_no',
      id: 'anything_new',
      text,
      help: 'A complaint, an illness, an injury, a medicine, an operation, a pregnancy. If you are not sure, answer “don’t know”.',
    },
    {
      kind: 'several_of',
      id: 'new_about',
      text: 'What is it about?',
      onlyWhen: { yes: 'anything_new' },
      options: [
        { id: 'legs', label: 'A leg or both' },
        { id: 'back_saddle_nerves', label: 'Back, the area you sit on, hands, numbness or weakness' },
        { id: 'joints_injuries', label: 'A joint, an injury, a fever' },
        { id: 'feet', label: 'Feet or shoes' },
        { id: 'medical', label: 'An illness, operation, pregnancy, medicine or allergy' },
        { id: 'something_else', label: 'Something else' },
      ],
    },
  ],
});

const about = (...what: string[]): Condition => ({
  all: [{ yes: 'anything_new' }, { fact: 'new_about', anyOf: [...what, 'something_else'] }],
});

/** What may be an emergency, and where it is, is asked of everything new. */
const whatIsNew: readonly SectionOf[] = [
  { ...heartAndHead, opensWhen: { yes: 'anything_new' } },
  { ...legs, opensWhen: about('legs', 'feet') },
  { ...backSaddleAndNerves, opensWhen: about('back_saddle_nerves', 'legs') },
  { ...jointsAndInjuries, opensWhen: about('joints_injuries') },
  { ...feet, opensWhen: about('feet') },
  { ...medical, opensWhen: about('medical') },
  { ...medicines, opensWhen: about('medical') },
  { ...complaints, opensWhen: { yes: 'anything_new' } },
];

/** Asked when the client comes in. */
export const sessionStartV1: QuestionSet = setOf(
  { id: 'session-start', version: '1', title: 'Before we begin', scope: 'what_is_new' },
  [
    anythingNew(
      'Before we begin',
      'Since you last answered our questions, has anything about your health changed?',
    ),
    ...whatIsNew,
  ],
);

/** Asked when the client reports something on the bike or after a change. */
export const duringTheSessionV1: QuestionSet = setOf(
  { id: 'during-the-session', version: '1', title: 'During the session', scope: 'what_is_new' },
  [anythingNew('During the session', 'Do you feel anything now that you did not feel before?'), ...whatIsNew],
);

const sinceYourFit = anythingNew(
  'Since your fit',
  'Since your fit, have you felt anything new, or has a complaint become worse?',
);

/** Asked at follow-ups before these asked how it went, too. */
export const sinceTheFitV2: QuestionSet = setOf(
  { id: 'since-the-fit', version: '2', title: 'Since your fit', scope: 'what_is_new' },
  [sinceYourFit, ...whatIsNew],
);

/** Whether a complaint stayed the same after two fits is only asked of who has one. */
const complaintsNow: SectionOf = {
  ...complaints,
  questions: complaints.questions.map((question) =>
    question.id === 'unchanged_after_two_fits'
      ? { ...question, onlyWhen: { fact: 'complaint_sites', anyOf: bodySites.map(({ id }) => id) } }
      : question,
  ),
};

/** After a fit, where it hurts and whether the feet go numb is asked of everyone; the rest of what is new, if any. */
const whatIsNewAfterAFit: readonly SectionOf[] = [
  ...whatIsNew.filter(({ id }) => id !== complaints.id && id !== feet.id),
  { ...otherFeet, opensWhen: about('feet') },
  complaintsNow,
];

/** Asked at a follow-up that counts: what is new, then how it went. */
export const sinceTheFitV3: QuestionSet = setOf(
  { id: 'since-the-fit', version: '3', title: 'Since your fit', scope: 'what_is_new' },
  [sinceYourFit, ...whatIsNewAfterAFit, onTheBike, ownActivities, riding, hardEfforts, overall],
);

/** The early look after a large change. */
export const firstDaysV1: QuestionSet = setOf(
  { id: 'first-days', version: '1', title: 'The first days', scope: 'what_is_new' },
  [sinceYourFit, ...whatIsNewAfterAFit, firstDaysOnTheBike, worries],
);

/** After shoe work and the first ride on it. */
export const firstRideV1: QuestionSet = setOf(
  { id: 'first-ride', version: '1', title: 'After the first ride', scope: 'what_is_new' },
  [shoesAfterTheWork, sinceYourFit, ...whatIsNew, worries],
);

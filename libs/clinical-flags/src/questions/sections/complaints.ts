import { bodySites } from '../body-sites.js';
import type { Question } from '../question.js';
import type { SectionOf } from '../question-set.js';

const where: Question = {
  kind: 'body_sites',
  id: 'complaint_sites',
  text: 'Where does something bother you, on the bike or off it?',
  help: 'Mark every place, or none.',
  sites: bodySites,
};

/** Asked of each place. */
const ofEachSite: readonly Question[] = [
  {
    kind: 'several_of',
    id: 'complaint_quality',
    perSite: true,
    text: 'What do you notice there?',
    options: [
      { id: 'pain', label: 'Pain' },
      { id: 'numbness', label: 'Numbness' },
      { id: 'tingling', label: 'Tingling or burning' },
      { id: 'coldness', label: 'Coldness' },
      { id: 'colour', label: 'A change of colour' },
      { id: 'swelling', label: 'Swelling' },
    ],
  },
  {
    kind: 'several_of',
    id: 'complaint_when',
    perSite: true,
    text: 'When?',
    options: [
      { id: 'at_rest', label: 'At rest or at night' },
      { id: 'riding', label: 'While riding' },
      { id: 'hard_efforts', label: 'On hard efforts' },
      { id: 'after_riding', label: 'After riding' },
      { id: 'daily_life', label: 'On walking, stairs or in daily life' },
    ],
  },
  {
    kind: 'one_of',
    id: 'complaint_duration',
    perSite: true,
    text: 'How long have you had it?',
    options: [
      { id: 'under_two_weeks', label: 'Less than two weeks' },
      { id: 'two_to_six_weeks', label: 'Two to six weeks' },
      { id: 'over_six_weeks', label: 'Six weeks or longer' },
    ],
  },
  {
    kind: 'number',
    id: 'complaint_worst',
    perSite: true,
    text: 'How bad is it at its worst?',
    help: '0 is not at all, 10 is as bad as you can imagine.',
    min: 0,
    max: 10,
    unit: 'of 10',
    licence: 'Plain numeric rating from 0 to 10 with own anchors; free to use.',
  },
  {
    kind: 'yes_no',
    id: 'complaint_rises',
    perSite: true,
    text: 'Does it rise by two points or more of that scale during a ride?',
  },
];

export const complaints: SectionOf = {
  id: 'complaints',
  title: 'What bothers you, and where',
  questions: [
    where,
    ...ofEachSite,
    {
      kind: 'yes_no',
      id: 'unchanged_after_two_fits',
      text: 'Has a complaint stayed the same after two fitting visits?',
    },
  ],
};

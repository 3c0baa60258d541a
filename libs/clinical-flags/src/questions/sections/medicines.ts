import type { SectionOf } from '../question-set.js';

export const medicines: SectionOf = {
  id: 'medicines',
  title: 'Medicines and allergies',
  questions: [
    {
      kind: 'several_of',
      id: 'medicines',
      text: 'Which of these do you take?',
      options: [
        { id: 'blood_thinner', label: 'A blood thinner' },
        { id: 'oestrogen', label: 'The pill, a patch or hormones with oestrogen' },
        { id: 'steroids', label: 'Cortisone or similar, for longer than a few weeks' },
      ],
    },
    {
      kind: 'yes_no',
      id: 'skin_fragile',
      text: 'Does your skin bruise or tear easily?',
      onlyWhen: { fact: 'medicines', anyOf: ['blood_thinner', 'steroids'] },
    },
    {
      kind: 'several_of',
      id: 'allergies',
      text: 'Does your skin react to any of these?',
      options: [
        { id: 'epoxy_or_acrylate', label: 'Resins, glues or nail gels (epoxy, acrylate)' },
        { id: 'rubber', label: 'Rubber' },
        { id: 'nickel', label: 'Nickel' },
      ],
    },
    {
      kind: 'text',
      id: 'medicines_in_own_words',
      context: true,
      text: 'Other medicines or allergies the fitter should know of?',
      maxLength: 1000,
    },
  ],
};

import type { SectionOf } from '../question-set.js';

/** Agreement is no health answer: yes or no, never "don't know". */
export const consent: SectionOf = {
  id: 'consent',
  title: 'Your agreement',
  questions: [
    {
      kind: 'yes_no',
      id: 'agrees_to_health_data',
      context: true,
      text: 'Do you agree that the studio keeps these answers about your health to plan your fit safely?',
      help: 'You can take it back at any time.',
    },
    {
      kind: 'yes_no',
      id: 'understands_no_diagnosis',
      context: true,
      text: 'Do you understand that these questions sort what needs a clinician, and replace no medical advice?',
    },
  ],
};

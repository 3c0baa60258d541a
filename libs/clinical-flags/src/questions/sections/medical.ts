import type { SectionOf } from '../question-set.js';

export const medical: SectionOf = {
  id: 'medical',
  title: 'Your health',
  questions: [
    {
      kind: 'several_of',
      id: 'medical_conditions',
      text: 'Which of these have you been told you have, or have had?',
      options: [
        { id: 'heart', label: 'A heart condition' },
        { id: 'diabetes', label: 'Diabetes' },
        { id: 'kidney', label: 'A kidney condition' },
        { id: 'leg_circulation', label: 'Poor circulation in the legs' },
        { id: 'clot', label: 'A blood clot in a leg or the lungs' },
        { id: 'cancer', label: 'Cancer' },
        { id: 'thin_bones', label: 'Thin or fragile bones' },
        { id: 'feet_without_feeling', label: 'Feet that feel less' },
      ],
    },
    {
      kind: 'yes_no',
      id: 'cleared_for_hard_exercise',
      text: 'Has a doctor who knows of that allowed you hard exercise, and nothing changed since?',
      onlyWhen: { fact: 'medical_conditions', anyOf: ['heart', 'diabetes', 'kidney'] },
    },
    {
      kind: 'number',
      id: 'cleared_months_ago',
      text: 'How many months ago was that last?',
      onlyWhen: { yes: 'cleared_for_hard_exercise' },
      min: 0,
      max: 600,
      unit: 'months',
    },
    {
      kind: 'yes_no',
      id: 'circulation_cleared',
      text: 'Is a doctor looking after your circulation, and has allowed you to ride?',
      onlyWhen: { fact: 'medical_conditions', anyOf: ['leg_circulation'] },
    },
    {
      kind: 'yes_no',
      id: 'clot_cleared',
      text: 'Was the clot treated, and has a doctor allowed you to ride?',
      onlyWhen: { fact: 'medical_conditions', anyOf: ['clot'] },
    },
    {
      kind: 'yes_no',
      id: 'leg_artery_operated',
      text: 'Have you had an operation on a blood vessel of a leg or the groin?',
    },
    {
      kind: 'yes_no',
      id: 'leg_artery_surgeon_agrees',
      text: 'Has the surgeon allowed you to ride again?',
      onlyWhen: { yes: 'leg_artery_operated' },
    },
    {
      kind: 'several_of',
      id: 'recent_events',
      text: 'Which of these fit you now or in the last twelve weeks?',
      options: [
        { id: 'surgery', label: 'An operation' },
        { id: 'bed_rest_or_cast', label: 'Three days in bed or longer, or a leg in a cast' },
        { id: 'long_travel', label: 'A journey of many hours sitting still' },
        { id: 'pregnant', label: 'I am pregnant' },
        { id: 'gave_birth', label: 'I gave birth' },
      ],
    },
    {
      kind: 'yes_no',
      id: 'surgeon_allows_riding',
      text: 'Has the surgeon allowed you to ride?',
      onlyWhen: { fact: 'recent_events', anyOf: ['surgery'] },
    },
  ],
};

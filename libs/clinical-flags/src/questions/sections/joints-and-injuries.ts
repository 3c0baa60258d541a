import type { SectionOf } from '../question-set.js';

export const jointsAndInjuries: SectionOf = {
  id: 'joints-and-injuries',
  title: 'Joints, bones and injuries',
  questions: [
    {
      kind: 'yes_no',
      id: 'joint_hot_and_swollen',
      text: 'Has a joint become hot or much swollen, and hard to move, in the last weeks?',
    },
    {
      kind: 'yes_no',
      id: 'fever_with_back_or_joint_pain',
      text: 'Do you have a fever or shivering together with pain in the back or a joint?',
    },
    {
      kind: 'yes_no',
      id: 'injury_recent',
      text: 'Have you had a fall, crash or other injury that still hurts?',
    },
    {
      kind: 'several_of',
      id: 'injury_signs',
      text: 'Since then, which of these?',
      onlyWhen: { yes: 'injury_recent' },
      options: [
        { id: 'cannot_take_four_steps', label: 'I cannot take four steps on that leg' },
        { id: 'cannot_bend_knee', label: 'I cannot bend the knee to a right angle' },
        { id: 'misshapen', label: 'It looks out of shape' },
      ],
    },
    {
      kind: 'yes_no',
      id: 'knee_locks_or_gives_way',
      text: 'Does a knee lock, or give way since an injury?',
    },
    {
      kind: 'yes_no',
      id: 'bone_pain_on_loading',
      text: 'Does a hip, groin or one spot of a bone hurt when you put weight on it, or wake you at night?',
    },
    {
      kind: 'several_of',
      id: 'body_signs',
      text: 'Which of these have you had lately?',
      options: [
        { id: 'weight_loss', label: 'I lost weight without trying' },
        { id: 'night_pain', label: 'Pain that keeps me from sleeping, whatever position' },
        { id: 'lump', label: 'A new lump' },
        { id: 'fever', label: 'A fever' },
      ],
    },
  ],
};

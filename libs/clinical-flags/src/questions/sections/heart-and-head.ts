import type { SectionOf } from '../question-set.js';

export const heartAndHead: SectionOf = {
  id: 'heart-and-head',
  title: 'Heart, breath and head',
  intro:
    'If you have chest pain, are badly short of breath or cannot move or speak as usual right now, stop here and call your local emergency number.',
  questions: [
    {
      kind: 'yes_no',
      id: 'chest_pain',
      text: 'Have you had pain, pressure or tightness in your chest today or in the last three days?',
    },
    {
      kind: 'number',
      id: 'chest_pain_hours_ago',
      text: 'How many hours ago did you last have it?',
      help: 'Put 0 if you have it now. A guess will do.',
      onlyWhen: { yes: 'chest_pain' },
      min: 0,
      max: 120,
      unit: 'hours',
      decimals: true,
    },
    {
      kind: 'yes_no',
      id: 'chest_pain_older',
      text: 'Longer ago than that, have you had chest pain, pressure or tightness that no doctor has looked at?',
    },
    {
      kind: 'yes_no',
      id: 'breathless_at_rest',
      text: 'Are you now badly short of breath at rest or with little effort?',
    },
    { kind: 'yes_no', id: 'coughed_blood', text: 'Have you coughed up blood lately?' },
    {
      kind: 'yes_no',
      id: 'passed_out_lately',
      text: 'Have you collapsed or passed out in the last three days?',
    },
    {
      kind: 'yes_no',
      id: 'passed_out_on_effort',
      text: 'Have you ever passed out during exercise or right after it, and not been examined for it?',
    },
    {
      kind: 'several_of',
      id: 'heart_signs',
      text: 'Which of these do you know from yourself, and no doctor has looked at it?',
      options: [
        { id: 'tight_on_effort', label: 'Tightness or pain in chest, jaw or arm on effort' },
        { id: 'breathless_on_effort', label: 'Short of breath out of proportion to the effort' },
        { id: 'dizzy', label: 'Dizziness or nearly passing out' },
        { id: 'breathless_lying', label: 'Short of breath when lying flat or waking up so at night' },
        { id: 'palpitations', label: 'A racing or stumbling heart' },
        { id: 'murmur', label: 'A heart murmur that was found' },
        { id: 'unusual_fatigue', label: 'Unusual tiredness with ordinary activity' },
      ],
    },
    {
      kind: 'yes_no',
      id: 'sudden_face_arm_or_speech',
      text: 'Has one side of your face, an arm or a leg suddenly become weak, or your speech unclear?',
    },
  ],
};

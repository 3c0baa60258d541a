import { barsEverything, type Rule } from '../rule.js';

export const suddenFaceArmOrSpeech = {
  id: 'sudden-face-arm-or-speech',
  version: 1,
  area: 'nerve',
  raisedWhen: { yes: 'sudden_face_arm_or_speech' },
  route: 'emergency_now',
  permission: barsEverything,
  messageForClient:
    'This needs emergency care now: call your local emergency number or go to an emergency department. Do not ride.',
  messageForStaff:
    'Sudden one-sided weakness of face, arm or leg, or unclear speech: emergency now. Note the time, call, stay with the client.',
  wouldChange: 'Emergency assessment, recorded as a clearance.',
  source: { strength: 'common practice', citation: 'common practice, from memory: no source was read' },
} as const satisfies Rule;

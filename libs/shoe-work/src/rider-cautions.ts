import type { Caution } from '@studio/fit-math';

/** What a rider is told with worked shoes, in words of the fit sheet. Common practice, no source. */
export const afterShoeWork: readonly Caution[] = [
  {
    code: 'not-reversible',
    text: 'The soles were worked on: this cannot be undone, and the maker’s warranty is likely void.',
  },
  {
    code: 'strength-untested',
    text: 'How strong the soles still are, nobody has tested. Look at them before each ride; with a crack, a creak or a part that moves, do not ride them and bring them to us.',
  },
  {
    code: 'release-first',
    text: 'Before you ride: twist each foot out of the pedal at a standstill, several times. If one does not come out, do not ride.',
  },
  {
    code: 'easy-first-ride',
    text: 'Make the first ride an easy one, away from traffic.',
  },
  {
    code: 'torque-again',
    text: 'Have the bolts tightened to their torque again after the first ride. A loose cleat may not release.',
  },
];

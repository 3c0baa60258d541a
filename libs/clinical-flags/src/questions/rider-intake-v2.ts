import { setOf, type QuestionSet } from './question-set.js';
import { aboutYou } from './sections/about-you.js';
import { backSaddleAndNerves } from './sections/back-saddle-nerves.js';
import { complaints } from './sections/complaints.js';
import { consent } from './sections/consent.js';
import { feet } from './sections/feet.js';
import { heartAndHead } from './sections/heart-and-head.js';
import { jointsAndInjuries } from './sections/joints-and-injuries.js';
import { legs } from './sections/legs.js';
import { medical } from './sections/medical.js';
import { medicines } from './sections/medicines.js';

/** What everyone is asked before a fit; what may be an emergency comes first. Own wording; no licensed scale. */
export const riderIntakeV2: QuestionSet = setOf(
  { id: 'rider-intake', version: '2', title: 'Before your fit', scope: 'whole' },
  [
    heartAndHead,
    legs,
    backSaddleAndNerves,
    jointsAndInjuries,
    feet,
    medical,
    medicines,
    complaints,
    aboutYou,
    consent,
  ],
);

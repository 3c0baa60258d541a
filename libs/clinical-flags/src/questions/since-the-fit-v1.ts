import type { QuestionSet } from './question-set.js';
import { riderIntakeV1 } from './rider-intake-v1.js';

/** Kept for the screenings that used it. */
export const sinceTheFitV1: QuestionSet = { ...riderIntakeV1, id: 'since-the-fit', title: 'Since your fit' };

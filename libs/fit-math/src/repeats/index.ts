export { sideDifference, type SideDifference } from './side-difference.js';
export { summariseRepeats, type RepeatsSummary } from './summarise-repeats.js';

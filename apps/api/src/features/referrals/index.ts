export { closeWhatIsCleared } from './close-what-is-cleared.js';
export { isUrgent } from './deadlines.js';
export { refer } from './refer.js';

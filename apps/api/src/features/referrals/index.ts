export { closeWhatIsCleared } from './close-what-is-cleared.js';
export { refer } from './refer.js';

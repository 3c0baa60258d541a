export { followFirstRide } from './follow-first-ride.js';

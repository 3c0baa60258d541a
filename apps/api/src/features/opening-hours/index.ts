export { StudioHours } from './studio-hours.js';

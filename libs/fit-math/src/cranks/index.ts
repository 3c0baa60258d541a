export { crankChange, type CrankChange } from './crank-change.js';

export { findFootPitch } from './motion-recordings.queries.js';

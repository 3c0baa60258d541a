export { findSettings } from './message-settings.queries.js';

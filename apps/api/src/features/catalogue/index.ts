export { findService } from './catalogue.queries.js';

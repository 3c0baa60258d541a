export { findBike, findShoe } from './equipment.queries.js';

export type { LegSegments } from './leg-segments.js';
export { segmentsFromHeights, usualHeightErrors, type LandmarkHeights } from './segments-from-heights.js';
export { segmentsFromStature, type StatureInput } from './segments-from-stature.js';
export { statureTables, type StatureTable } from './stature-tables.js';

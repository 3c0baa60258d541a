export { comparePositions, type PositionDifference, type PositionFigures } from './compare-positions.js';
export {
  measuringMethods,
  positionError,
  positionField,
  positionFieldIds,
  positionFields,
  type MeasuringMethod,
  type PositionField,
  type PositionFieldId,
} from './position-fields.js';
export { positionsSideBySide, type SideBySide } from './positions-side-by-side.js';

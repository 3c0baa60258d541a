export {
  measurementKind,
  measurementKindIds,
  measurementKinds,
  units,
  type MeasurementKind,
  type MeasurementKindId,
  type Unit,
} from './measurement-kinds.js';
export { readMeasurement, type ReadMeasurement } from './read-measurement.js';
export { readQuantity } from './read-quantity.js';
export { convertQuantity, keptIn, unitsOf, type Quantity, type UnitOf } from './units.js';

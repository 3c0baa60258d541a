export { crankChange, type CrankChange } from './crank-change.js';
export {
  compareCrankLengths,
  crankProportions,
  type CrankComparison,
  type CrankInputName,
  type CrankInputs,
  type CrankProportion,
  type CrankRow,
} from './crank-proportions.js';

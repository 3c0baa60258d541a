export * from './air/index.js';
export type { Caution } from './cautions.js';
export * from './cleats/index.js';
export { FitMathError, type FitMathErrorCode } from './errors.js';
export { formulaVersion } from './formula-version.js';
export * from './leg-chain/index.js';
export * from './quantities/index.js';
export * from './setback/index.js';
export { propagate, type Uncertain } from './uncertainty.js';

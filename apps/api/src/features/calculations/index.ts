export { calculations, type CalculationName, type Calculations } from './calculations.js';
export { inputProblems } from './input.pipe.js';

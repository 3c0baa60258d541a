export { taxRatesToday } from './tax-rates-today.js';

export { minorUnitDigits } from './currencies.js';
export { decimalAmount } from './decimal-amount.js';
export { taxed, taxRateForm, type Taxed } from './tax.js';

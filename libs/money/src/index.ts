export { minorUnitDigits } from './currencies.js';
export { decimalAmount } from './decimal-amount.js';
export { distribute } from './distribute.js';
export {
  DiscountTooLarge,
  priceLines,
  quantityForm,
  taxOfPart,
  withTax,
  type Discount,
  type LineToPrice,
  type PricedLine,
  type PricedLines,
  type TaxTotal,
} from './price-lines.js';
export { taxed, taxRateForm, type Taxed } from './tax.js';

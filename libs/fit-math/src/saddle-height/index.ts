export {
  compareSaddleHeights,
  type SaddleHeightComparison,
  type SaddleHeightRow,
} from './compare-saddle-heights.js';
export {
  saddleHeightRules,
  type SaddleHeightInputName,
  type SaddleHeightInputs,
  type SaddleHeightRule,
} from './saddle-height-rules.js';

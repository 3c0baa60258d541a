export {
  clinicallyLargeMm,
  judgeLegLength,
  type LegLengthInput,
  type LegLengthJudgement,
  type LegLengthNature,
} from './judge-leg-length.js';
export { legLengthMethods, type LegLengthMethod } from './leg-length-methods.js';
export {
  legLengthOptions,
  saddleSettings,
  type LegInTurn,
  type LegLengthOption,
  type LegLengthOptions,
  type LegLengthOptionsInput,
  type SaddleSetFor,
} from './leg-length-options.js';

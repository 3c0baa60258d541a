export { pairedMeanChange, type Pair, type PairedMeanChange } from './paired-mean-change.js';

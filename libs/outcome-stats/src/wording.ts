import type { Interval } from './finding.js';

/** `-3.2`; what rounds to nothing has no sign. */
export const oneDecimal = (value: number): string => (Number(value.toFixed(1)) + 0).toFixed(1);

/** `1.0 to 2.5` */
export const spelled = ({ low, high }: Interval): string => `${oneDecimal(low)} to ${oneDecimal(high)}`;

/** `17 %` */
export const percent = (share: number): string => `${(100 * share).toFixed(0)} %`;

/** `p = 0.012`, `p < 0.001` */
export const spelledP = (p: number): string => (p < 0.001 ? 'p < 0.001' : `p = ${p.toFixed(3)}`);

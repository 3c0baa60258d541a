import { footHardware } from './foot-hardware.js';
import { cleatWays } from './hardware.js';

/** Every kind of part that can be under or beside a foot, by kind and never by make. */
export const mountedHardware: readonly string[] = [
  'three_bolt_cleat',
  'two_bolt_cleat',
  'four_bolt_cleat',
  ...cleatWays.map(({ id }) => id).filter((id) => id !== 'within_slots'),
  ...footHardware.map(({ id }) => id),
  'insole',
  'platform_pedal',
];

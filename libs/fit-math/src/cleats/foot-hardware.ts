import type { Caution } from '../cautions.js';

/** A part under or beside the foot, by kind and never by make. What brings a cleat back is in `cleatWays`. */
export interface FootHardware {
  readonly id: string;
  readonly name: string;
  /** What it changes: how far out the foot stands, how it may turn, how high or how tilted it is. */
  readonly moves: 'stance' | 'rotation' | 'height' | 'tilt';
  readonly unit: 'mm' | 'deg';
  /** Least and greatest it is made in; outwards, upwards, or as an angle either way. */
  readonly by: readonly [number, number];
  readonly cautions: readonly Caution[];
}

const threadHolds: Caution = {
  code: 'thread-engagement',
  text: 'Every washer takes thread from the pedal: enough turns must be left in the arm to hold it.',
};
const bendsMore: Caution = {
  code: 'more-leverage',
  text: 'The pedal bends the axle and the arm’s thread more the farther out it is: mind the rider’s weight and the part’s limit.',
};
const leans: Caution = {
  code: 'pedal-strike',
  text: 'A wider stance touches the ground earlier in a corner.',
};
const bothLegs: Caution = {
  code: 'reach-changes',
  text: 'The leg reaches less far by its height: work out the saddle for both legs again.',
};
const tiltsOften: Caution = {
  code: 'clinical-reason-first',
  text: 'A tilt under the foot wants a reason found by somebody licensed to find it, and small steps.',
};

/** Common practice, no source: which kinds there are and how far they go. */
export const footHardware = [
  {
    id: 'pedal_washer',
    name: 'Pedal washers',
    moves: 'stance',
    unit: 'mm',
    by: [0.5, 2],
    cautions: [threadHolds],
  },
  {
    id: 'long_axle',
    name: 'Pedal with a longer axle',
    moves: 'stance',
    unit: 'mm',
    by: [4, 12],
    cautions: [bendsMore, leans],
  },
  {
    id: 'pedal_extender',
    name: 'Extender between arm and pedal',
    moves: 'stance',
    unit: 'mm',
    by: [16, 30],
    cautions: [bendsMore, leans],
  },
  {
    id: 'fixed_cleat',
    name: 'Cleat without float',
    moves: 'rotation',
    unit: 'deg',
    by: [0, 0],
    cautions: [],
  },
  {
    id: 'small_float_cleat',
    name: 'Cleat with small float',
    moves: 'rotation',
    unit: 'deg',
    by: [1, 3],
    cautions: [],
  },
  {
    id: 'large_float_cleat',
    name: 'Cleat with large float',
    moves: 'rotation',
    unit: 'deg',
    by: [4.5, 7.5],
    cautions: [],
  },
  {
    id: 'cleat_shim',
    name: 'Shim under the cleat',
    moves: 'height',
    unit: 'mm',
    by: [1, 12],
    cautions: [bothLegs],
  },
  {
    id: 'cleat_wedge',
    name: 'Wedge under the cleat',
    moves: 'tilt',
    unit: 'deg',
    by: [1, 4],
    cautions: [tiltsOften],
  },
  {
    id: 'shoe_wedge',
    name: 'Wedge in the shoe',
    moves: 'tilt',
    unit: 'deg',
    by: [1, 3],
    cautions: [tiltsOften],
  },
] as const satisfies readonly FootHardware[];

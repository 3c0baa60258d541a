export const lengthUnits = ['mm', 'cm', 'm', 'in', 'ft'] as const;
export const angleUnits = ['deg'] as const;
export const units = [...lengthUnits, ...angleUnits] as const;
export type Unit = (typeof units)[number];

/** What can be measured: between which points, in which unit it is kept, and what is possible and plausible. */
export interface MeasurementKind {
  readonly id: string;
  readonly name: string;
  /** The two points it runs between, or the angle it is. */
  readonly definition: string;
  readonly keptIn: 'mm' | 'deg';
  readonly sided: boolean;
  /** Outside: refused. */
  readonly possible: readonly [number, number];
  /** Outside: kept with a warning. */
  readonly plausible: readonly [number, number];
  readonly plausibleSource: string;
  /** Standard deviation of one careful reading. House rule; replaced by one's own repeats where they show more. */
  readonly usualError: number;
}

const survey = 'mean ± 3 SD, pooled ANSUR II, Gordon et al. 2014, NATICK/TR-15/007';
const houseRule = 'house rule';

export const measurementKinds = [
  {
    id: 'inseam',
    name: 'Inside leg',
    definition: 'Floor to crotch, standing, book pressed up firmly.',
    keptIn: 'mm',
    sided: false,
    possible: [400, 1200],
    plausible: [661, 989],
    plausibleSource: `crotch height, ${survey}`,
    usualError: 6,
  },
  {
    id: 'thigh_length',
    name: 'Thigh',
    definition: 'Greater trochanter to lateral femoral epicondyle.',
    keptIn: 'mm',
    sided: true,
    possible: [200, 700],
    plausible: [320, 480],
    plausibleSource: 'house rule about the ANSUR II means of 379 and 409 mm (landmark height differences)',
    usualError: 8,
  },
  {
    id: 'shank_length',
    name: 'Shank',
    definition: 'Lateral femoral epicondyle to lateral malleolus.',
    keptIn: 'mm',
    sided: true,
    possible: [200, 700],
    plausible: [330, 500],
    plausibleSource: 'house rule about the ANSUR II means of 403 and 419 mm (landmark height differences)',
    usualError: 8,
  },
  {
    id: 'foot_lever',
    name: 'Foot lever',
    definition: 'Along the sole, cleat centre back to below the lateral malleolus.',
    keptIn: 'mm',
    sided: true,
    possible: [20, 300],
    plausible: [70, 190],
    plausibleSource: houseRule,
    usualError: 4,
  },
  {
    id: 'ankle_above_spindle',
    name: 'Ankle above spindle',
    definition: 'Pedal spindle to lateral malleolus, vertically, sole level.',
    keptIn: 'mm',
    sided: true,
    possible: [30, 250],
    plausible: [85, 155],
    plausibleSource: houseRule,
    usualError: 4,
  },
  {
    id: 'foot_pitch',
    name: 'Foot pitch near the bottom',
    definition: 'Sole to the horizontal where the leg is straightest, riding; toe down positive.',
    keptIn: 'deg',
    sided: true,
    possible: [-60, 80],
    plausible: [-15, 45],
    plausibleSource: houseRule,
    usualError: 3,
  },
  {
    id: 'knee_flexion_straightest',
    name: 'Knee flexion at the straightest point',
    definition: 'Trochanter, femoral epicondyle, malleolus; 0 is a straight leg; riding.',
    keptIn: 'deg',
    sided: true,
    possible: [5, 120],
    plausible: [20, 55],
    plausibleSource: houseRule,
    usualError: 3,
  },
  {
    id: 'mth1_from_heel',
    name: 'First metatarsal head',
    definition: 'Heel end of the shoe to the first metatarsal head, foot in the shoe.',
    keptIn: 'mm',
    sided: true,
    possible: [80, 350],
    plausible: [155, 245],
    plausibleSource: `ball-of-foot length, ${survey}, with 0 to 10 mm of shoe behind the heel`,
    usualError: 3,
  },
  {
    id: 'cleat_from_heel',
    name: 'Cleat centre',
    definition: 'Heel end of the shoe to the pedal spindle’s place on the cleat.',
    keptIn: 'mm',
    sided: true,
    possible: [50, 350],
    plausible: [120, 250],
    plausibleSource: houseRule,
    usualError: 1,
  },
  {
    id: 'stature',
    name: 'Stature',
    definition: 'Floor to crown, standing barefoot.',
    keptIn: 'mm',
    sided: false,
    possible: [1200, 2200],
    plausible: [1444, 1984],
    plausibleSource: survey,
    usualError: 5,
  },
  {
    id: 'trochanter_height',
    name: 'Trochanter height',
    definition: 'Floor to greater trochanter, standing barefoot.',
    keptIn: 'mm',
    sided: true,
    possible: [500, 1300],
    plausible: [720, 1046],
    plausibleSource: `trochanterion, ${survey}`,
    usualError: 8,
  },
  {
    id: 'knee_height',
    name: 'Knee height',
    definition: 'Floor to lateral femoral epicondyle, standing barefoot.',
    keptIn: 'mm',
    sided: true,
    possible: [250, 800],
    plausible: [395, 571],
    plausibleSource: `lateral femoral epicondyle, ${survey}`,
    usualError: 5,
  },
  {
    id: 'malleolus_height',
    name: 'Ankle height',
    definition: 'Floor to lateral malleolus, standing barefoot.',
    keptIn: 'mm',
    sided: true,
    possible: [30, 150],
    plausible: [48, 91],
    plausibleSource: `lateral malleolus, ${survey}`,
    usualError: 3,
  },
  {
    id: 'ankle_from_heel',
    name: 'Ankle along the sole',
    definition: 'Heel end of the shoe to below the lateral malleolus.',
    keptIn: 'mm',
    sided: true,
    possible: [20, 150],
    plausible: [45, 105],
    plausibleSource: houseRule,
    usualError: 4,
  },
  {
    id: 'mth5_from_heel',
    name: 'Fifth metatarsal head',
    definition: 'Heel end of the shoe to the fifth metatarsal head, foot in the shoe.',
    keptIn: 'mm',
    sided: true,
    possible: [50, 350],
    plausible: [130, 225],
    plausibleSource: houseRule,
    usualError: 4,
  },
] as const satisfies readonly MeasurementKind[];

export type MeasurementKindId = (typeof measurementKinds)[number]['id'];

export const measurementKindIds = measurementKinds.map(({ id }) => id);

/**
 * What is known of a kind of measurement, by its id.
 *
 * @example measurementKind('thigh_length').usualError; // 8
 */
export function measurementKind(id: MeasurementKindId): MeasurementKind {
  return measurementKinds.find((kind) => kind.id === id) as MeasurementKind;
}

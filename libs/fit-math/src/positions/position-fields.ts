import { measurementKind } from '../quantities/measurement-kinds.js';
import { usualTapeErrorMm } from '../setback/saddle-shape.js';

/** How a figure was come by. */
export const measuringMethods = ['tape', 'calliper', 'goniometer', 'video', 'level', 'estimate'] as const;
export type MeasuringMethod = (typeof measuringMethods)[number];

/** One figure of a rider's position on a bike. */
export interface PositionField {
  readonly id: string;
  /** Between which points it runs and what its sign means. */
  readonly definition: string;
  readonly unit: 'mm' | 'deg';
  /** Outside: refused. */
  readonly possible: readonly [number, number];
  /** Standard deviation of one careful reading, same unit. House rule. */
  readonly usualError: number;
}

const twoReadings = usualTapeErrorMm * Math.SQRT2;
/** Read as two places along the shoe: that of the joint, felt through it, and that of the cleat. */
const behindMth1 = Math.hypot(
  measurementKind('mth1_from_heel').usualError,
  measurementKind('cleat_from_heel').usualError,
);
const cleatPlace = measurementKind('cleat_from_heel').usualError;

/** What a position is made of. Common practice, no source: which figures a fitter keeps and between which points. */
export const positionFields = [
  {
    id: 'saddleHeightMm',
    definition: 'Bottom bracket to saddle top, along the seat tube.',
    unit: 'mm',
    possible: [300, 1100],
    usualError: usualTapeErrorMm,
  },
  {
    id: 'saddleSetbackMm',
    definition: 'Saddle tip behind the bottom bracket, horizontally; negative in front.',
    unit: 'mm',
    possible: [-150, 250],
    usualError: usualTapeErrorMm,
  },
  {
    id: 'saddleSetbackAt80Mm',
    definition: 'Where the saddle is 80 mm wide, behind the bottom bracket, horizontally.',
    unit: 'mm',
    possible: [-50, 450],
    usualError: twoReadings,
  },
  {
    id: 'saddleTiltDeg',
    definition: 'Saddle to the horizontal; nose up positive.',
    unit: 'deg',
    possible: [-30, 30],
    usualError: 0.5,
  },
  {
    id: 'barReachMm',
    definition: 'Saddle tip to the centre of the bars, horizontally.',
    unit: 'mm',
    possible: [200, 900],
    usualError: twoReadings,
  },
  {
    id: 'barDropMm',
    definition: 'Saddle top above the bars, vertically; negative when the bars are higher.',
    unit: 'mm',
    possible: [-300, 400],
    usualError: twoReadings,
  },
  {
    id: 'hoodReachMm',
    definition: 'Saddle tip to the hollow of the hoods, or to the grips, horizontally.',
    unit: 'mm',
    possible: [200, 1100],
    usualError: 2 * usualTapeErrorMm,
  },
  {
    id: 'hoodDropMm',
    definition:
      'Saddle top above the hollow of the hoods, or the grips, vertically; negative when they are higher.',
    unit: 'mm',
    possible: [-350, 400],
    usualError: 2 * usualTapeErrorMm,
  },
  {
    id: 'barTiltDeg',
    definition: 'Flat below the hoods, or the end of a flat bar, to the horizontal; turned up positive.',
    unit: 'deg',
    possible: [-60, 60],
    usualError: 1,
  },
  {
    id: 'barWidthMm',
    definition: 'Centre to centre of the hoods, or of the grips.',
    unit: 'mm',
    possible: [150, 1000],
    usualError: 2 * usualTapeErrorMm,
  },
  {
    id: 'crankLengthMm',
    definition: 'Bottom bracket to pedal spindle.',
    unit: 'mm',
    possible: [80, 250],
    usualError: 0.5,
  },
  ...(['Left', 'Right'] as const).flatMap(
    (side) =>
      [
        {
          id: `cleatBehindMth1${side}Mm`,
          definition: `Cleat centre behind the first metatarsal head, ${side.toLowerCase()}.`,
          unit: 'mm',
          possible: [-60, 150],
          usualError: behindMth1,
        },
        {
          id: `cleatFromNose${side}Mm`,
          definition: `Nose of the shoe back to the cleat centre, along the sole, ${side.toLowerCase()}.`,
          unit: 'mm',
          possible: [20, 300],
          usualError: cleatPlace,
        },
        {
          id: `cleatRotation${side}Deg`,
          definition: `Cleat turned on the sole; toe out positive, ${side.toLowerCase()}.`,
          unit: 'deg',
          possible: [-30, 30],
          usualError: 1,
        },
        {
          id: `cleatOutward${side}Mm`,
          definition: `Middle of the foot outside the middle of the pedal; negative inside, ${side.toLowerCase()}.`,
          unit: 'mm',
          possible: [-15, 15],
          usualError: 1,
        },
        {
          id: `shim${side}Mm`,
          definition: `Stack of shims under the cleat, ${side.toLowerCase()}.`,
          unit: 'mm',
          possible: [0, 50],
          usualError: 0.2,
        },
      ] as const satisfies readonly PositionField[],
  ),
] as const satisfies readonly PositionField[];

export type PositionFieldId = (typeof positionFields)[number]['id'];
export const positionFieldIds: readonly PositionFieldId[] = positionFields.map(({ id }) => id);

/**
 * What is known of a figure of a position, by its id.
 *
 * @example positionField('crankLengthMm').unit; // 'mm'
 */
export function positionField(id: PositionFieldId): PositionField {
  return positionFields.find((field) => field.id === id) as PositionField;
}

/** Standard deviation of one reading: an estimate by eye is taken to err three times as much (house rule). */
export const positionError = (id: PositionFieldId, method: MeasuringMethod | null): number =>
  positionField(id).usualError * (method === 'estimate' ? 3 : 1);

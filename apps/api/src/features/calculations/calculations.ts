import * as fit from '@studio/fit-math';

/** The rider's leg and foot on the present bike, and what changes between hip and crank. */
export interface SaddleChangeInput {
  readonly rider: fit.RiderOnBike;
  readonly change: fit.FootAndCrankChange;
  /** Standard deviations of the measured values; the usual ones when absent. */
  readonly errors?: fit.RiderErrors;
}

export interface PedalTurnInput {
  readonly leg: fit.Leg;
  readonly footPitch: fit.FootPitch;
  /** Hip joint from the bottom bracket. */
  readonly hip: fit.Point;
  /** How many places of the turn; a whole number, 4–3600. 72 when absent. */
  readonly steps?: number;
}

export interface PedalTurn {
  readonly samples: readonly fit.RevolutionSample[];
  readonly straightest: fit.RevolutionSample;
}

/** What was measured on the rider, and the crank. With the knee as read now, the bands of knee flexion as well. */
export interface SaddleHeightsInput extends fit.SaddleHeightInputs {
  /** Bottom bracket to pedal spindle. 80–250. */
  readonly crankLengthMm: number;
  readonly riderNow?: Omit<fit.RiderNow, 'leg'> & { readonly leg: Omit<fit.Leg, 'crankLengthMm'> };
}

export interface SaddleSwapInput {
  /** Tip of the saddle ridden now behind the bottom bracket, negative = in front. −200–300. */
  readonly tipSetbackMm: number;
  readonly now: fit.SaddleShape;
  readonly other: fit.SaddleShape;
}

export interface CrankChangeInput {
  readonly rider: fit.RiderOnBike;
  /** Bottom bracket to pedal spindle, within 60 mm of the present one. 80–250. */
  readonly newCrankLengthMm: number;
}

export interface CleatPlaces {
  readonly formulaVersion: string;
  readonly places: readonly fit.CleatPlace[];
}

export interface StanceOptionsInput {
  readonly stance: fit.StanceInput;
  readonly side: 'left' | 'right';
  /** Middle of the foot from the middle of the bike. 80–220. */
  readonly wantedMm: number;
}

export interface StanceOptions {
  readonly formulaVersion: string;
  /** How far the foot must go, outwards positive. */
  readonly asksOutMm: number;
  readonly options: readonly fit.StanceOption[];
}

export interface CourseTimeInput {
  readonly rider: fit.RiderOnRoad;
  /** In the order ridden. 1–10000. */
  readonly stretches: readonly fit.Stretch[];
  /** At the pedals. 1–2500. */
  readonly powerW: number;
}

export interface AirDensity {
  readonly formulaVersion: string;
  readonly densityKgPerM3: fit.Uncertain;
}

export interface KneeOverSpindle {
  readonly formulaVersion: string;
  readonly landmark: fit.KneeLandmarkId;
  readonly aheadOfSpindleMm: fit.Uncertain;
}

export interface CapturedMotionInput {
  /**
   * A header and a row per sample: `time_s` or `time_ms`, and either `x` and `y` of `hip`, `knee`, `ankle`, `heel`,
   * `toe` and `spindle` as `hip_x`, `hip_y` and so on, or `crank_deg`, `knee_flexion_deg`, `thigh_elevation_deg`,
   * `ankle_angle_deg` and `foot_pitch_deg`. Commas, or semicolons where the numbers have decimal commas.
   */
  readonly csv: string;
  /** How markers were filmed; not read where the angles themselves were recorded. */
  readonly film: fit.FilmSettings;
}

export interface QuantityInput {
  /** As typed, such as `34.5 cm`, `13 5/8"` or `2' 9"`. */
  readonly text: string;
  readonly quantity: fit.Quantity;
}

export interface QuantityRead {
  /** Millimetres, kilograms, watts or degrees. */
  readonly value: number;
  readonly unit: 'mm' | 'kg' | 'W' | 'deg';
}

export interface MeasurementInput {
  readonly kind: fit.MeasurementKindId;
  /** 1–5 readings, taken anew each time. */
  readonly readings: readonly number[];
  readonly unit: fit.Unit;
}

export interface RepeatsInput {
  /** 2–5 readings in one unit, taken anew each time. */
  readonly readings: readonly number[];
  /** Standard deviation of one careful reading, in the same unit. Above 0. */
  readonly usualError: number;
}

export interface SidesInput {
  readonly left: fit.Uncertain;
  readonly right: fit.Uncertain;
}

/** What each calculator takes and answers, by the last part of its address. */
export interface Calculations {
  readonly 'cleat-plans': { readonly input: fit.CleatPlanInput; readonly result: fit.CleatPlan };
  readonly 'cleat-places': { readonly input: fit.FootLandmarks; readonly result: CleatPlaces };
  readonly 'cleats-for-both-feet': { readonly input: fit.BothFeet; readonly result: fit.CleatsForBothFeet };
  readonly 'cleat-rotations': { readonly input: fit.CleatRotationInput; readonly result: fit.CleatRotation };
  readonly stances: { readonly input: fit.StanceInput; readonly result: fit.Stance };
  readonly 'stance-options': { readonly input: StanceOptionsInput; readonly result: StanceOptions };
  readonly 'saddle-changes': { readonly input: SaddleChangeInput; readonly result: fit.Uncertain };
  readonly 'pedal-turns': { readonly input: PedalTurnInput; readonly result: PedalTurn };
  readonly 'saddle-heights': {
    readonly input: SaddleHeightsInput;
    readonly result: fit.SaddleHeightComparison;
  };
  readonly 'knee-over-spindle': {
    readonly input: fit.KneeOverSpindleInput;
    readonly result: KneeOverSpindle;
  };
  readonly 'saddle-swaps': { readonly input: SaddleSwapInput; readonly result: fit.SaddleSwap };
  readonly 'racing-saddle-checks': {
    readonly input: fit.RacingSaddleInput;
    readonly result: fit.RacingSaddleCheck;
  };
  readonly 'crank-changes': { readonly input: CrankChangeInput; readonly result: fit.CrankChange };
  readonly 'crank-lengths': { readonly input: fit.CrankInputs; readonly result: fit.CrankComparison };
  readonly 'segments-from-heights': { readonly input: fit.LandmarkHeights; readonly result: fit.LegSegments };
  readonly 'segments-from-stature': { readonly input: fit.StatureInput; readonly result: fit.LegSegments };
  readonly 'leg-length-judgements': {
    readonly input: fit.LegLengthInput;
    readonly result: fit.LegLengthJudgement;
  };
  readonly 'leg-length-options': {
    readonly input: fit.LegLengthOptionsInput;
    readonly result: fit.LegLengthOptions;
  };
  readonly transfers: { readonly input: fit.TransferInput; readonly result: fit.Transfer };
  readonly 'second-bikes': { readonly input: fit.SecondBikeInput; readonly result: fit.SecondBike };
  readonly 'air-densities': { readonly input: fit.Weather; readonly result: AirDensity };
  readonly 'course-times': { readonly input: CourseTimeInput; readonly result: fit.CourseTime };
  readonly 'lowering-gains': { readonly input: fit.LoweringInput; readonly result: fit.LoweringGain };
  readonly 'rearward-cleat-suitability': {
    readonly input: fit.SuitabilityAnswers;
    readonly result: fit.Suitability;
  };
  readonly 'captured-motion': { readonly input: CapturedMotionInput; readonly result: fit.Motion };
  readonly quantities: { readonly input: QuantityInput; readonly result: QuantityRead };
  readonly measurements: { readonly input: MeasurementInput; readonly result: fit.ReadMeasurement };
  readonly repeats: { readonly input: RepeatsInput; readonly result: fit.RepeatsSummary };
  readonly 'side-differences': { readonly input: SidesInput; readonly result: fit.SideDifference };
}

export type CalculationName = keyof Calculations;

/** Every calculator the API offers without a record: the library's own functions. */
export const calculations: {
  readonly [Name in CalculationName]: (input: Calculations[Name]['input']) => Calculations[Name]['result'];
} = {
  'cleat-plans': (input) => fit.cleatPlan(input),
  'cleat-places': (input) => fit.cleatPlaces(input),
  'cleats-for-both-feet': (input) => fit.cleatsForBothFeet(input),
  'cleat-rotations': (input) => fit.cleatRotation(input),
  stances: (input) => fit.stance(input),
  'stance-options': ({ stance, side, wantedMm }) => fit.stanceOptions(stance, side, wantedMm),
  'saddle-changes': ({ rider, change, errors }) => fit.saddleChange(rider, change, errors),
  'pedal-turns': ({ leg, footPitch, hip, steps = 72 }) => ({
    samples: fit.revolution(leg, footPitch, hip, steps),
    straightest: fit.straightest(leg, footPitch, hip),
  }),
  'saddle-heights': ({ crankLengthMm, riderNow, ...inputs }) =>
    fit.compareSaddleHeights(inputs, crankLengthMm, riderNow),
  'knee-over-spindle': (input) => fit.kneeOverSpindle(input),
  'saddle-swaps': ({ tipSetbackMm, now, other }) => fit.swapSaddle(tipSetbackMm, now, other),
  'racing-saddle-checks': (input) => fit.checkRacingSaddle(input),
  'crank-changes': ({ rider, newCrankLengthMm }) => fit.crankChange(rider, newCrankLengthMm),
  'crank-lengths': (input) => fit.compareCrankLengths(input),
  'segments-from-heights': (input) => fit.segmentsFromHeights(input),
  'segments-from-stature': (input) => fit.segmentsFromStature(input),
  'leg-length-judgements': (input) => fit.judgeLegLength(input),
  'leg-length-options': (input) => fit.legLengthOptions(input),
  transfers: (input) => fit.transferPosition(input),
  'second-bikes': (input) => fit.secondBike(input),
  'air-densities': (input) => fit.airDensity(input),
  'course-times': ({ rider, stretches, powerW }) => fit.courseTime(rider, stretches, powerW),
  'lowering-gains': (input) => fit.loweringGain(input),
  'rearward-cleat-suitability': (input) => fit.rearwardCleatSuitability(input),
  'captured-motion': ({ csv, film }) => fit.analyseMotion(fit.readMotionCsv(csv), film),
  quantities: ({ text, quantity }) => ({
    value: fit.readQuantity('text', text, quantity),
    unit: fit.keptIn[quantity],
  }),
  measurements: ({ kind, readings, unit }) => fit.readMeasurement(kind, readings, unit),
  repeats: ({ readings, usualError }) => fit.summariseRepeats(readings, usualError),
  'side-differences': ({ left, right }) => fit.sideDifference(left, right),
};

import type { Caution } from '../cautions.js';
import { FitMathError } from '../errors.js';
import { formulaVersion } from '../formula-version.js';
import type { Leg } from '../leg-chain/leg.js';
import { requireRange } from '../require-range.js';
import { propagate, type Uncertain } from '../uncertainty.js';
import { kneeTargetHeights, type KneeTargetHeights, type RiderNow } from './knee-target-heights.js';
import {
  saddleHeightRules,
  type SaddleHeightInputName,
  type SaddleHeightInputs,
  type SaddleHeightRule,
} from './saddle-height-rules.js';

export interface SaddleHeightRow {
  readonly rule: SaddleHeightRule['id'];
  readonly source: string;
  readonly uses: readonly SaddleHeightInputName[];
  /** Where the rule itself measures from. */
  readonly publishedDatum: SaddleHeightRule['datum'];
  readonly publishedHeightMm: number;
  /** Bottom-bracket centre to saddle top, along the seat tube; the error is that of measuring the rider only. */
  readonly saddleHeightMm: Uncertain;
}

export interface SaddleHeightComparison {
  readonly formulaVersion: string;
  readonly rows: readonly SaddleHeightRow[];
  readonly leftOut: readonly {
    readonly rule: SaddleHeightRule['id'];
    readonly missing: readonly SaddleHeightInputName[];
  }[];
  /** Highest less lowest of the rules. */
  readonly spreadMm: number;
  /** Published bands of knee flexion, as heights from the same datum; null when the rider's knee was not read. */
  readonly kneeTargets: KneeTargetHeights | null;
  readonly cautions: readonly Caution[];
}

const ranges: Readonly<Record<SaddleHeightInputName, readonly [number, number]>> = {
  inseamMm: [400, 1200],
  trochanterHeightMm: [500, 1300],
  statureMm: [1200, 2200],
  dynamicKneeFlexionDeg: [20, 60],
};

/** Standard deviation of one careful reading, house rule; a wanted angle is exact. */
const usualErrors = { inseamMm: 6, trochanterHeightMm: 8, statureMm: 5 };

const cautions: readonly Caution[] = [
  {
    code: 'rules-differ',
    text: 'The rules come from different riders and landmarks; none is the answer. Start within their spread and measure the knee riding.',
  },
  {
    code: 'not-a-response',
    text: 'The rule with knee flexion in it is a regression across riders: it does not say how far one rider’s saddle moves for a degree.',
  },
];

/**
 * Every published saddle-height rule the inputs allow, side by side from the bottom bracket. A height from the pedal
 * spindle has the crank in line with the seat tube, so the crank length is taken off. Beside them, where the knee was
 * read, the heights that bring it to each published band of flexion.
 *
 * @param crankLengthMm bottom bracket to pedal spindle. 80–250
 * @param riderNow the rider on this crank, for the bands of knee flexion
 * @returns one row a rule, bottom-bracket centre to saddle top along the seat tube, and their spread
 * @throws FitMathError naming the input outside its range, or `inputs` when no rule can be asked
 * @source as in `saddleHeightRules`
 * @check outside/saddle-height: ANSUR II means, identity of two rules, Ferrer-Roca et al. 2012 (coefficients from
 *   memory)
 * @tolerance 0.05 mm; 1e-8 mm; 0.1 % of inseam
 * @example compareSaddleHeights({ inseamMm: 825.1 }, 170.8).rows[0]?.saddleHeightMm.value; // 728.56…
 */
export function compareSaddleHeights(
  inputs: SaddleHeightInputs,
  crankLengthMm: number,
  riderNow?: Omit<RiderNow, 'leg'> & { readonly leg: Omit<Leg, 'crankLengthMm'> },
): SaddleHeightComparison {
  requireRange('crankLengthMm', crankLengthMm, 80, 250);
  const known: Record<SaddleHeightInputName, number> = {
    inseamMm: inputs.inseamMm ?? Number.NaN,
    trochanterHeightMm: inputs.trochanterHeightMm ?? Number.NaN,
    statureMm: inputs.statureMm ?? Number.NaN,
    dynamicKneeFlexionDeg: inputs.dynamicKneeFlexionDeg ?? Number.NaN,
  };
  for (const [name, [minimum, maximum]] of Object.entries(ranges) as [
    SaddleHeightInputName,
    readonly [number, number],
  ][]) {
    if (inputs[name] !== undefined) requireRange(name, inputs[name], minimum, maximum);
  }
  const missingOf = (rule: SaddleHeightRule) => rule.uses.filter((name) => inputs[name] === undefined);
  const rows = saddleHeightRules
    .filter((rule) => missingOf(rule).length === 0)
    .map((rule): SaddleHeightRow => {
      const sds = Object.fromEntries(
        Object.entries(usualErrors).filter(([name]) => rule.uses.includes(name as SaddleHeightInputName)),
      );
      const published = propagate(known, sds, rule.heightMm);
      const offset = rule.datum === 'pedal-spindle' ? crankLengthMm : 0;
      return {
        rule: rule.id,
        source: rule.source,
        uses: rule.uses,
        publishedDatum: rule.datum,
        publishedHeightMm: published.value,
        saddleHeightMm: { value: published.value - offset, sd: published.sd },
      };
    });
  if (rows.length === 0) {
    throw new FitMathError(
      'input.not-a-number',
      'inputs',
      'inseamMm, trochanterHeightMm or statureMm at least',
    );
  }
  const heights = rows.map(({ saddleHeightMm }) => saddleHeightMm.value);
  return {
    formulaVersion,
    rows,
    leftOut: saddleHeightRules
      .map((rule) => ({ rule: rule.id, missing: missingOf(rule) }))
      .filter(({ missing }) => missing.length > 0),
    spreadMm: Math.max(...heights) - Math.min(...heights),
    kneeTargets: riderNow
      ? kneeTargetHeights({ ...riderNow, leg: { ...riderNow.leg, crankLengthMm } })
      : null,
    cautions,
  };
}

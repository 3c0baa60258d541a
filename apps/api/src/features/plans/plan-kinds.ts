import type { PlanKind } from '@studio/database';
import { cleatWays, type Transfer } from '@studio/fit-math';
import {
  contactPointsFrom,
  figures,
  legKindsOf,
  meanOf,
  measured,
  midwayRider,
  riderErrorsFrom,
  riderFrom,
} from './facts.js';
import { asComputed, ownLeg, planKindOf, type AnyPlanKind, type PlanOption } from './plan-kind.js';
import { NotMeasuredYet } from './plans.errors.js';

const buildsOf = ({ builds }: Transfer): readonly PlanOption[] =>
  builds.map(({ fits, greatestLeftoverMm }, index) => ({
    id: `build_${index + 1}`,
    feasible: true,
    reasons: fits
      ? []
      : [{ code: 'leaves-over', text: `Misses the position by ${greatestLeftoverMm.toFixed(0)} mm.` }],
    asks: [],
  }));

/** Every kind of plan: which calculator works it out, and what it takes from the record. */
export const kindsOfPlan: Readonly<Record<PlanKind, AnyPlanKind>> = {
  cleat: planKindOf({
    calculation: 'cleat-plans',
    sided: true,
    legs: ownLeg,
    fromRecord: (facts, side) => {
      const of = measured(facts, side, [
        ...legKindsOf(facts, ...ownLeg(side)),
        'mth1_from_heel',
        'cleat_from_heel',
      ]);
      const { outerLengthMm, holePattern, slotFrontFromHeelMm, slotRearFromHeelMm, archChannel } = facts.shoe;
      return {
        shoe: { outerLengthMm, holePattern, slotFrontFromHeelMm, slotRearFromHeelMm, archChannel },
        cleatFromHeelMm: of.cleat_from_heel.mean,
        mth1FromHeelMm: of.mth1_from_heel.mean,
        rider: riderFrom(facts, side, of),
        errors: riderErrorsFrom(facts, side, of),
      };
    },
    options: ({ options }) =>
      options.map(({ way, feasible, reasons }) => {
        const cutsTheSole = cleatWays.find(({ id }) => id === way)?.needsWholeArch ?? true;
        return {
          id: way,
          feasible,
          reasons,
          asks: cutsTheSole ? ['cleat_change', 'shoe_work'] : ['cleat_change'],
        };
      }),
    predicts: ({ options }, optionId, { side, saddleOffsetMm }) =>
      options
        .filter(({ way }) => way === optionId)
        .flatMap(({ saddleHeightChangeMm: { value, sd }, behindMth1Mm }) => [
          { field: 'saddleHeightMm', as: 'change', predicted: { value: value + saddleOffsetMm, sd } },
          {
            field: side === 'left' ? 'cleatBehindMth1LeftMm' : 'cleatBehindMth1RightMm',
            as: 'value',
            predicted: { value: behindMth1Mm, sd: null },
          },
        ]),
  }),

  saddle_height: planKindOf({
    calculation: 'saddle-heights',
    sided: true,
    legs: (side, added) => (added.includes('riderNow') ? ownLeg(side) : []),
    fromRecord: (facts, side, added) => {
      const known = {
        inseamMm: meanOf(facts, 'inseam', null),
        trochanterHeightMm: meanOf(facts, 'trochanter_height', side),
        statureMm: meanOf(facts, 'stature', null),
      };
      if (Object.values(known).every((value) => value === undefined)) {
        throw new NotMeasuredYet(['inseam', 'trochanter_height', 'stature']);
      }
      return {
        ...Object.fromEntries(Object.entries(known).filter(([, value]) => value !== undefined)),
        crankLengthMm: facts.bike.crankLengthMm,
        ...(added.includes('riderNow') && { riderNow: riderNow() }),
      };

      function riderNow() {
        const of = measured(facts, side, legKindsOf(facts, ...ownLeg(side)));
        const { leg, footPitch, seatTubeAngleDeg } = riderFrom(facts, side, of);
        const { thighMm, shankMm, footLeverMm, ankleAboveSpindleMm } = leg;
        return {
          leg: { thighMm, shankMm, footLeverMm, ankleAboveSpindleMm },
          footPitch,
          seatTubeAngleDeg,
          saddleHeightMm: figures(facts, ['saddleHeightMm']).saddleHeightMm,
          readings: { dynamicStraightestDeg: of.knee_flexion_straightest.mean },
          errors: riderErrorsFrom(facts, side, of),
        };
      }
    },
    options: ({ rows }) =>
      rows.map(({ rule }) => ({ id: rule, feasible: true, reasons: [], asks: ['riding'] })),
    predicts: ({ rows }, optionId) =>
      rows
        .filter(({ rule }) => rule === optionId)
        .map(({ saddleHeightMm }) => ({ field: 'saddleHeightMm', as: 'value', predicted: saddleHeightMm })),
  }),

  saddle_swap: planKindOf({
    calculation: 'saddle-swaps',
    sided: false,
    fromRecord: (facts) => ({ tipSetbackMm: figures(facts, ['saddleSetbackMm']).saddleSetbackMm }),
    options: () => asComputed('saddle_trial'),
    predicts: ({ tipSetbackMm }) => [{ field: 'saddleSetbackMm', as: 'value', predicted: tipSetbackMm }],
  }),

  setback: planKindOf({
    calculation: 'knee-over-spindle',
    sided: true,
    legs: ownLeg,
    fromRecord: (facts, side) => {
      const { leg, footPitch } = riderFrom(
        facts,
        side,
        measured(facts, side, legKindsOf(facts, ...ownLeg(side))),
      );
      return { leg, footPitch };
    },
    options: () => asComputed('riding'),
  }),

  leg_length: planKindOf({
    calculation: 'leg-length-options',
    sided: false,
    legs: () => ['left', 'right'],
    fromRecord: (facts) => ({ rider: midwayRider(facts) }),
    options: ({ options }) =>
      options.flatMap(({ id, offered, reasons, saddles }) =>
        saddles.map(({ setFor }) => ({
          id: `${id}/${setFor}`,
          feasible: offered,
          reasons,
          asks: [
            'riding' as const,
            ...(id.includes('shim') ? (['wedge_or_shim'] as const) : []),
            ...(id.includes('stagger') ? (['cleat_change'] as const) : []),
          ],
        })),
      ),
    predicts: ({ options }, optionId) =>
      options.flatMap(({ id, saddles }) =>
        saddles
          .filter(({ setFor }) => `${id}/${setFor}` === optionId)
          .map(({ saddleHeightChangeMm: value }) => ({
            field: 'saddleHeightMm',
            as: 'change',
            predicted: { value, sd: null },
          })),
      ),
  }),

  crank: planKindOf({
    calculation: 'crank-changes',
    sided: true,
    legs: ownLeg,
    fromRecord: (facts, side) => ({
      rider: riderFrom(facts, side, measured(facts, side, legKindsOf(facts, ...ownLeg(side)))),
    }),
    options: () => asComputed('riding'),
    predicts: ({ saddleChangeMm }, _, { saddleOffsetMm }) => [
      {
        field: 'saddleHeightMm',
        as: 'change',
        predicted: { value: saddleChangeMm.value + saddleOffsetMm, sd: saddleChangeMm.sd },
      },
    ],
  }),

  transfer: planKindOf({
    calculation: 'transfers',
    sided: false,
    fromRecord: (facts) => ({ wanted: contactPointsFrom(facts) }),
    options: buildsOf,
  }),

  second_bike: planKindOf({
    calculation: 'second-bikes',
    sided: true,
    legs: ownLeg,
    fromRecord: (facts, side) => {
      const of = measured(facts, side, legKindsOf(facts, ...ownLeg(side)));
      return {
        contactPoints: contactPointsFrom(facts),
        rider: riderFrom(facts, side, of),
        errors: riderErrorsFrom(facts, side, of),
      };
    },
    options: ({ transfer }) => buildsOf(transfer),
  }),

  air: planKindOf({
    calculation: 'lowering-gains',
    sided: false,
    fromRecord: () => ({}),
    options: () => asComputed('riding'),
  }),
};

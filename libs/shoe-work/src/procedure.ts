import type { Fixing } from './ways.js';
import {
  commonPractice,
  cutGloves,
  dust,
  eyes,
  partCured,
  release,
  resinGloves,
  type Hazard,
} from './hazards.js';

export type { Hazard } from './hazards.js';

export type Shoe = 'left' | 'right';
export const shoes: readonly Shoe[] = ['left', 'right'];

/** A value a step is written down with. */
export type StepValue = { readonly name: string; readonly says: string } & (
  | { readonly kind: 'check' | 'text' }
  | {
      readonly kind: 'number';
      readonly unit: string | null;
      readonly least: number;
      readonly most: number;
      readonly source: string;
    }
);

export interface Step {
  readonly id: string;
  readonly says: string;
  /** `work`: on the bench; `hand_over`: nothing cures any more, and the rider is there; `riding`: once it is ridden. */
  readonly stage: 'work' | 'hand_over' | 'riding';
  /** Done only where the part is fixed so; always when absent. */
  readonly only?: readonly Fixing[];
  /** The sole is not what it was afterwards: consent, permission and feasibility have to hold at that moment. */
  readonly irreversible?: true;
  /** Not done without a photograph. */
  readonly photographed?: true;
  readonly values: readonly StepValue[];
  readonly hazards: readonly Hazard[];
}

/** The steps of one shoe in their order; both shoes go through all of them. */
export interface Procedure {
  readonly version: string;
  readonly steps: readonly Step[];
}

const check = (name: string, says: string): StepValue => ({ name, kind: 'check', says });
const text = (name: string, says: string): StepValue => ({ name, kind: 'text', says });

const torque: readonly StepValue[] = [
  {
    name: 'torqueNm',
    kind: 'number',
    says: 'As set on the torque wrench. Often 4 to 6 N·m for the bolts of a cleat.',
    unit: 'N·m',
    least: 0.5,
    most: 20,
    source: `${commonPractice}; the maker’s instructions rule`,
  },
  text(
    'torqueFrom',
    'Where the value comes from: the maker’s instructions, or common practice where there are none.',
  ),
];

/** Common practice, no source: the order and the checks of the work. A published version never changes; the newest is last. */
export const procedures: readonly [Procedure, ...Procedure[]] = [
  {
    version: '1',
    steps: [
      {
        id: 'photographed',
        says: 'Photograph sole, insole and inside as they are.',
        stage: 'work',
        photographed: true,
        values: [check('soleAndInsideShown', 'Sole and inside are both to be seen.')],
        hazards: [],
      },
      {
        id: 'marked',
        says: 'Mark where the cleat’s centre comes to be, and measure it again from the heel.',
        stage: 'work',
        values: [
          {
            name: 'cleatFromHeelMm',
            kind: 'number',
            says: 'Heel end of the shoe to the mark.',
            unit: 'mm',
            least: 50,
            most: 350,
            source: 'range: house rule',
          },
          check('measuredTwice', 'Measured twice, by the same points as the plan.'),
        ],
        hazards: [],
      },
      {
        id: 'drilled',
        says: 'Drill or cut with a depth stop, insole out.',
        stage: 'work',
        only: ['drilled', 'drilled_and_bonded'],
        irreversible: true,
        values: [
          {
            name: 'holes',
            kind: 'number',
            says: 'How many holes or slots.',
            unit: null,
            least: 1,
            most: 12,
            source: 'range: house rule',
          },
          check('depthStop', 'A depth stop was set.'),
        ],
        hazards: [eyes, dust, cutGloves],
      },
      {
        id: 'bonded',
        says: 'Roughen, clean and bond; write down the adhesive and how long its maker has it cure.',
        stage: 'work',
        only: ['bonded', 'drilled_and_bonded'],
        irreversible: true,
        values: [
          text('adhesive', 'By kind, such as two-part epoxy. None of it comes near the skin.'),
          text('cureAsTold', 'Full cure at the temperature of the room, by the maker’s sheet.'),
        ],
        hazards: [resinGloves, dust, partCured],
      },
      {
        id: 'nuts_seated',
        says: 'Seat the nuts, backing plate in place.',
        stage: 'hand_over',
        only: ['drilled', 'drilled_and_bonded'],
        values: [check('seated', 'Every nut sits flat and does not turn.')],
        hazards: [cutGloves],
      },
      {
        id: 'inside_checked',
        says: 'Feel the inside by hand, insole in: no fastener comes through.',
        stage: 'hand_over',
        values: [check('nothingThroughInsole', 'No end of a fastener is felt through the insole.')],
        hazards: [],
      },
      {
        id: 'torqued',
        says: 'Tighten to torque.',
        stage: 'hand_over',
        values: torque,
        hazards: [release],
      },
      {
        id: 'released_at_standstill',
        says: 'The rider twists the foot out of the pedal at a standstill, held or at a wall.',
        stage: 'hand_over',
        values: [check('releasesEachTime', 'It comes out each of five times, without force.')],
        hazards: [release],
      },
      {
        id: 'easy_ride',
        says: 'An easy first ride, away from traffic.',
        stage: 'riding',
        values: [check('nothingMoved', 'Nothing moved, creaked or pressed.')],
        hazards: [release],
      },
      {
        id: 'torqued_again',
        says: 'Tighten to torque again after the first ride.',
        stage: 'riding',
        values: torque,
        hazards: [],
      },
    ],
  },
];

export const newestProcedure = procedures.at(-1) as Procedure;

/** The steps that apply to a way of fixing, in order. */
export const stepsFor = ({ steps }: Procedure, fixing: Fixing): readonly Step[] =>
  steps.filter(({ only }) => only === undefined || only.includes(fixing));

import { comparePositions, measurementKind, type PositionDifference } from '@studio/fit-math';
import type { Drawing } from '@studio/drawings';
import { feetDrawing, kneeDrawing, sideDrawing } from './drawings.js';
import type { FitSheetFacts, PlanFacts, PositionFacts, SheetOptions, Side } from './facts.js';
import { cleatMovedBackMm } from './posture.js';
import { shoeWork } from './shoe-work.js';
import type { Block, FigureName, Section, Sheet } from './sheet.js';
import { dayWords, figureNamesInWords, numberWords, signedWords, spaced } from './words.js';

/** The content of a fit sheet, from the record and nothing else; what was not recorded is left out or said to be. */
export function buildFitSheet(facts: FitSheetFacts, options: SheetOptions): Sheet {
  const sections: (Section | null)[] = [
    positions(facts, options),
    figures(facts),
    cleatPlans(facts, options),
    shoeWork(facts, options),
    advice(facts),
    nextDates(facts),
    ...(options.audience === 'studio' ? [measured(facts), signature(facts)] : []),
    amendments(facts),
    howToRead,
  ];
  return {
    language: 'en',
    title: options.audience === 'rider' ? 'Your fit' : 'Fit record',
    from: facts.studio,
    about: [
      `${facts.rider} – ${facts.bike.name}, ${facts.shoe.name}`,
      `Fitted on ${dayWords(facts.visitOn)} by ${facts.fitter}`,
      facts.signedOn === null ? 'Draft: not signed yet' : `Signed on ${dayWords(facts.signedOn)}`,
    ],
    sections: sections.filter((section) => section !== null),
  };
}

const howToRead: Section = {
  heading: 'How to read this',
  blocks: [
    {
      kind: 'paragraph',
      text:
        '“As found” is how you came, “as left” how you went. A change marked * is no larger than measuring the same twice ' +
        'may give. Angles and places that were computed hold with the foot held as it was: they are measured again ' +
        'at the follow-up. This sheet is no medical advice.',
    },
  ],
};

function positions({ found, left, bike }: FitSheetFacts, options: SheetOptions): Section {
  const blank: PositionFacts = { values: {}, methods: {}, hardware: { left: null, right: null } };
  const differences = comparePositions(found ?? blank, left ?? blank);
  if (differences.length === 0) {
    return {
      heading: 'Position',
      blocks: [{ kind: 'paragraph', text: 'No position has been measured yet.' }],
    };
  }
  const rows = differences.map((difference) => [
    figureNamesInWords[difference.field],
    figure(difference.from, difference.unit, options),
    figure(difference.to, difference.unit, options),
    change(difference),
  ]);
  const parts = (['left', 'right'] as const).flatMap((side) => hardwareRow(side, found, left));
  return {
    heading: 'Position before and after',
    blocks: [
      { kind: 'table', columns: ['', 'As found', 'As left', 'Change'], rows: [...rows, ...parts] },
      {
        kind: 'paragraph',
        text: `Saddle height: bottom bracket to saddle top along the seat tube (${numberWords(bike.seatTubeAngleDeg, 1)}° to the horizontal). Setbacks and reaches are horizontal, drops vertical. A dash: not measured.`,
      },
    ],
  };
}

function figure(value: number | null, unit: 'mm' | 'deg', { lengths }: SheetOptions): string {
  if (value === null) return '–';
  if (unit === 'deg') return `${numberWords(value, 1)}°`;
  const inches = lengths === 'mm_and_inch' ? ` (${numberWords(value / 25.4, 2)} in)` : '';
  return `${numberWords(value, 1)} mm${inches}`;
}

function change({ change: by, unit, withinError }: PositionDifference): string {
  if (by === null) return '–';
  if (by === 0) return '0';
  return `${signedWords(by, 1)}${unit === 'deg' ? '°' : ' mm'}${withinError === true ? ' *' : ''}`;
}

function hardwareRow(side: Side, found: PositionFacts | null, left: PositionFacts | null): string[][] {
  const told = (position: PositionFacts | null): string => {
    const parts = position?.hardware[side] ?? null;
    if (parts === null) return '–';
    return parts.length === 0 ? 'none' : parts.map(spaced).join(', ');
  };
  const [before, after] = [told(found), told(left)];
  if (before === '–' && after === '–') return [];
  return [[`Parts at the ${side} foot`, before, after, before === after ? '0' : '']];
}

function figures(facts: FitSheetFacts): Section | null {
  const drawn: (readonly [FigureName, Drawing | null])[] = [
    ['side-view', sideDrawing(facts)],
    ['feet', feetDrawing(facts)],
    ['knee', kneeDrawing(facts)],
  ];
  const blocks = drawn.flatMap(([name, drawing]): Block[] =>
    drawing ? [{ kind: 'figure', name, drawing }] : [],
  );
  return blocks.length === 0 ? null : { heading: 'Drawings', blocks };
}

function cleatPlans({ plans }: FitSheetFacts, { audience }: SheetOptions): Section | null {
  const chosen = plans.filter(({ chosenWay }) => chosenWay !== null);
  if (chosen.length === 0) return null;
  const cautions = new Set(
    chosen.flatMap(({ result, chosenWay }) =>
      (result.options.find(({ way }) => way === chosenWay)?.cautions ?? []).map(({ text }) => text),
    ),
  );
  return {
    heading: 'Cleat plan',
    blocks: [
      ...chosen.map((plan): Block => ({ kind: 'paragraph', text: planInWords(plan, audience) })),
      ...(cautions.size === 0 ? [] : [{ kind: 'list', items: [...cautions] } as const]),
    ],
  };
}

function planInWords(plan: PlanFacts, audience: SheetOptions['audience']): string {
  const { side, result, chosenWay, chosenBecause, saddleOffsetMm } = plan;
  const option = result.options.find(({ way }) => way === chosenWay);
  if (!option) return `${side}: ${spaced(chosenWay ?? '')}`;
  const { movesBackMm, cleatFromHeelMm, behindMth1Mm, shortOfMidfootMm, saddleHeightChangeMm } = option;
  const expected = saddleHeightChangeMm.value + saddleOffsetMm;
  const place =
    `${side === 'left' ? 'Left' : 'Right'}: ${spaced(option.way)}, the cleat ${numberWords(movesBackMm)} mm back to ` +
    `${numberWords(cleatFromHeelMm)} mm from the heel end of the shoe, ${numberWords(behindMth1Mm)} mm behind the first ` +
    `metatarsal head and ${numberWords(shortOfMidfootMm)} mm short of the midfoot.`;
  const saddle =
    ` Computed saddle change ${signedWords(expected)} mm (± ${numberWords(2 * saddleHeightChangeMm.sd)} mm), the ` +
    `bars with it.`;
  const reason = chosenBecause === null ? '' : ` Why: ${chosenBecause}`;
  const formula = ` Formula version ${result.formulaVersion}; the studio’s own offset ${signedWords(saddleOffsetMm)} mm.`;
  return `${place}${saddle}${audience === 'studio' ? reason + formula : ''}`;
}

/** Common practice, no source; staged by how far a cleat went. */
function advice({ found, left }: FitSheetFacts): Section | null {
  if (!found || !left) return null;
  const moved = Math.max(
    ...(['left', 'right'] as const).map((side) => Math.abs(cleatMovedBackMm(found, left, side))),
  );
  const weeks = moved >= 30 ? 4 : moved >= 10 ? 3 : 2;
  return {
    heading: 'The first weeks',
    blocks: [
      {
        kind: 'list',
        items: [
          `Ride short and easy at first; take ${weeks} weeks to come back to your usual hours, and leave hard efforts until the second half of them.`,
          ...(moved > 0
            ? [
                'Before the first ride: click out of both pedals at a standstill, several times. Turn the bars fully and see that no toe touches the wheel.',
                'After the first ride have the cleat bolts tightened again to their torque.',
              ]
            : []),
          'Change nothing more by yourself while you get used to it.',
          'Pain that is new, grows or stays after the ride, or a foot that goes numb: stop riding this position and call us. Chest pain, breathlessness at rest, or a leg that swells or goes cold: call emergency services.',
        ],
      },
    ],
  };
}

function nextDates({ nextOn }: FitSheetFacts): Section | null {
  if (nextOn.length === 0) return null;
  return {
    heading: 'Next dates',
    blocks: [
      { kind: 'paragraph', text: 'We ask how it goes, and measure again if need be, on:' },
      { kind: 'list', items: nextOn.map(dayWords) },
    ],
  };
}

function measured({ measurements }: FitSheetFacts): Section | null {
  if (measurements.length === 0) return null;
  const rows = measurements.map(({ kind, side, method, mean, error }) => {
    const { name, keptIn } = measurementKind(kind);
    const unit = keptIn === 'mm' ? ' mm' : '°';
    return [
      side === null ? name : `${name}, ${side}`,
      `${numberWords(mean, 1)}${unit}`,
      `± ${numberWords(2 * error, 1)}${unit}`,
      method,
    ];
  });
  return {
    heading: 'Measured',
    blocks: [{ kind: 'table', columns: ['', 'Value', '95 %', 'By'], rows }],
  };
}

function signature({ contentHash, signedOn, fitter }: FitSheetFacts): Section | null {
  if (contentHash === null || signedOn === null) return null;
  return {
    heading: 'Signature',
    blocks: [
      {
        kind: 'paragraph',
        text: `Signed by ${fitter} on ${dayWords(signedOn)}. SHA-256 of the record as signed: ${contentHash}.`,
      },
    ],
  };
}

function amendments({ amendments: written }: FitSheetFacts): Section | null {
  if (written.length === 0) return null;
  return {
    heading: 'Amendments',
    blocks: [{ kind: 'list', items: written.map(({ on, text }) => `${dayWords(on)}: ${text}`) }],
  };
}

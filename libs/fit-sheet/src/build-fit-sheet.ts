import { comparePositions, measurementKind, type PositionDifference } from '@studio/fit-math';
import type { Drawing } from '@studio/drawings';
import { adviceFor } from './advice/advice-for.js';
import { feetDrawing, kneeDrawing, sideDrawing } from './drawings.js';
import type { FitSheetFacts, PlanFacts, PositionFacts, SheetOptions, Side } from './facts.js';
import { cleatChangesMm } from './posture.js';
import { shoeWork } from './shoe-work.js';
import type { Block, FigureName, Section, Sheet } from './sheet.js';
import { dayWords, numberWords, partWords, sheetWords, signedWords, type SheetWords } from './words/index.js';

/** The content of a fit sheet, from the record and nothing else; what was not recorded is left out or said to be. */
export function buildFitSheet(facts: FitSheetFacts, options: SheetOptions): Sheet {
  const { audience, language } = options;
  const words = sheetWords[language];
  const of: Writing = { facts, options, words };
  const sections: (Section | null)[] = [
    positions(of),
    figures(of),
    cleatPlans(of),
    shoeWork(facts, options, words),
    advice(of),
    nextDates(of),
    ...(audience === 'studio' ? [measured(of), signature(of)] : []),
    amendments(of),
    { heading: words.howToRead.heading, blocks: [{ kind: 'paragraph', text: words.howToRead.says }] },
  ];
  // Said at the top too: what a figure was corrected to stands at the end.
  const amendedOn = [...new Set(facts.amendments.map(({ on }) => dayWords(words, on)))];
  return {
    language,
    title: words.titles[audience],
    from: facts.studio,
    about: [
      `${facts.rider} – ${facts.bike.name}, ${facts.shoe.name}`,
      words.fittedOn(dayWords(words, facts.visitOn), facts.fitter),
      facts.signedOn === null ? words.draft : words.signedOn(dayWords(words, facts.signedOn)),
      ...(amendedOn.length === 0 ? [] : [words.amendedOn(amendedOn.join(', '))]),
    ],
    sections: sections.filter((section) => section !== null),
    labels: { pageOf: words.pageOf, table: words.table },
  };
}

interface Writing {
  readonly facts: FitSheetFacts;
  readonly options: SheetOptions;
  readonly words: SheetWords;
}

function positions({ facts: { found, left, bike }, options, words }: Writing): Section {
  const { heading, none, beforeAndAfter, columns, figures: names, definitions } = words.position;
  const blank: PositionFacts = { values: {}, methods: {}, hardware: { left: null, right: null } };
  const differences = comparePositions(found ?? blank, left ?? blank);
  if (differences.length === 0) return { heading, blocks: [{ kind: 'paragraph', text: none }] };
  const rows = differences.map((difference) => [
    names[difference.field],
    figure(words, difference.from, difference.unit, options),
    figure(words, difference.to, difference.unit, options),
    change(words, difference),
  ]);
  const parts = (['left', 'right'] as const).flatMap((side) => hardwareRow(words, side, found, left));
  return {
    heading: beforeAndAfter,
    blocks: [
      { kind: 'table', columns, rows: [...rows, ...parts] },
      { kind: 'paragraph', text: definitions(numberWords(words, bike.seatTubeAngleDeg, 1)) },
    ],
  };
}

function figure(
  words: SheetWords,
  value: number | null,
  unit: 'mm' | 'deg',
  { lengths }: SheetOptions,
): string {
  if (value === null) return '–';
  if (unit === 'deg') return `${numberWords(words, value, 1)}°`;
  const inches = lengths === 'mm_and_inch' ? ` (${numberWords(words, value / 25.4, 2)} in)` : '';
  return `${numberWords(words, value, 1)} mm${inches}`;
}

function change(words: SheetWords, { change: by, unit, withinError }: PositionDifference): string {
  if (by === null) return '–';
  if (by === 0) return '0';
  return `${signedWords(words, by, 1)}${unit === 'deg' ? '°' : ' mm'}${withinError === true ? ' *' : ''}`;
}

function hardwareRow(
  words: SheetWords,
  side: Side,
  found: PositionFacts | null,
  left: PositionFacts | null,
): string[][] {
  const told = (position: PositionFacts | null): string => {
    const parts = position?.hardware[side] ?? null;
    if (parts === null) return '–';
    return parts.length === 0
      ? words.position.noParts
      : parts.map((part) => partWords(words, part)).join(', ');
  };
  const [before, after] = [told(found), told(left)];
  if (before === '–' && after === '–') return [];
  return [[words.position.parts(side), before, after, before === after ? '0' : '']];
}

function figures({ facts, words: { drawings: words } }: Writing): Section | null {
  const drawn: (readonly [FigureName, Drawing | null])[] = [
    ['side-view', sideDrawing(facts, words)],
    ['feet', feetDrawing(facts, words)],
    ['knee', kneeDrawing(facts, words)],
  ];
  const blocks = drawn.flatMap(([name, drawing]): Block[] =>
    drawing ? [{ kind: 'figure', name, drawing }] : [],
  );
  return blocks.length === 0 ? null : { heading: words.heading, blocks };
}

function cleatPlans({ facts: { plans }, options: { audience }, words }: Writing): Section | null {
  const chosen = plans.filter(({ chosenWay }) => chosenWay !== null);
  if (chosen.length === 0) return null;
  const cautions = new Set(
    chosen.flatMap(({ result, chosenWay }) =>
      (result.options.find(({ way }) => way === chosenWay)?.cautions ?? []).map(
        ({ code, text }) => words.cautions[code] ?? text,
      ),
    ),
  );
  return {
    heading: words.plan.heading,
    blocks: [
      ...chosen.map((plan): Block => ({ kind: 'paragraph', text: planInWords(words, plan, audience) })),
      ...(cautions.size === 0 ? [] : [{ kind: 'list', items: [...cautions] } as const]),
    ],
  };
}

function planInWords(words: SheetWords, plan: PlanFacts, audience: SheetOptions['audience']): string {
  const { side, inputs, result, chosenWay, chosenBecause, saddleOffsetMm } = plan;
  const way = partWords(words, chosenWay ?? '');
  const option = result.options.find((item) => item.way === chosenWay);
  if (!option) return `${side}: ${way}`;
  const { movesBackMm, cleatFromHeelMm, behindMth1Mm, shortOfMidfootMm, saddleHeightChangeMm } = option;
  const { place, saddle, why, formula, footPitch } = words.plan;
  const number = (value: number) => numberWords(words, value);
  const expected = saddleHeightChangeMm.value + saddleOffsetMm;
  return [
    place({
      ...{ side, way, back: number(movesBackMm), fromHeel: number(cleatFromHeelMm) },
      ...{ behindMth1: number(behindMth1Mm), shortOfMidfoot: number(shortOfMidfootMm) },
    }),
    saddle(signedWords(words, expected), number(2 * saddleHeightChangeMm.sd)),
    ...(audience === 'studio'
      ? [
          ...(inputs.rider.footPitch.kind === 'series' ? [footPitch] : []),
          ...(chosenBecause === null ? [] : [why(chosenBecause)]),
          formula(result.formulaVersion, signedWords(words, saddleOffsetMm)),
        ]
      : []),
  ].join(' ');
}

/** As it was written for this rider, or else by how far a cleat went. */
function advice({ facts: { found, left, advice: written }, options, words }: Writing): Section | null {
  if (!found || !left) return null;
  const items = written ?? adviceFor(cleatChangesMm(found, left), options.language).items;
  return { heading: words.advice.heading, blocks: [{ kind: 'list', items }] };
}

function nextDates({ facts: { nextOn }, words }: Writing): Section | null {
  if (nextOn.length === 0) return null;
  return {
    heading: words.next.heading,
    blocks: [
      { kind: 'paragraph', text: words.next.says },
      { kind: 'list', items: nextOn.map((day) => dayWords(words, day)) },
    ],
  };
}

function measured({ facts: { measurements }, words }: Writing): Section | null {
  if (measurements.length === 0) return null;
  const { heading, columns, kind: kindWords, methods } = words.measured;
  const rows = measurements.map(({ kind, side, method, mean, error }) => {
    const unit = measurementKind(kind).keptIn === 'mm' ? ' mm' : '°';
    return [
      kindWords(kind, side),
      `${numberWords(words, mean, 1)}${unit}`,
      `± ${numberWords(words, 2 * error, 1)}${unit}`,
      methods[method] ?? method,
    ];
  });
  return { heading, blocks: [{ kind: 'table', columns, rows }] };
}

function signature({ facts: { contentHash, signedOn, fitter }, words }: Writing): Section | null {
  if (contentHash === null || signedOn === null) return null;
  const text = words.signature.says(fitter, dayWords(words, signedOn), contentHash);
  return { heading: words.signature.heading, blocks: [{ kind: 'paragraph', text }] };
}

function amendments({ facts: { amendments: written }, words }: Writing): Section | null {
  if (written.length === 0) return null;
  const { heading, says, by } = words.amendments;
  return {
    heading,
    blocks: [
      { kind: 'paragraph', text: says },
      {
        kind: 'list',
        items: written.map(({ on, writtenBy, text }) => `${by(dayWords(words, on), writtenBy)}: ${text}`),
      },
    ],
  };
}

import { number } from '../axes.js';
import { bodyTop, drawing, type Drawing } from '../drawing.js';
import { element, label, line, type Attributes } from '../svg.js';
import { colour, smallSize } from '../style.js';
import { notesBelow } from './notes.js';
import { polyline, scaleBar, smoothClosed, spread, type Place } from './to-scale.js';

/** A cleat on its sole. */
export interface CleatPlace {
  /** Heel end of the shoe to the cleat's centre. */
  readonly fromHeelMm: number;
  /** Toe out positive; null: not measured, drawn straight. */
  readonly rotationDeg: number | null;
}

export interface FootFromBelow {
  readonly side: 'left' | 'right';
  readonly shoeLengthMm: number;
  readonly midfootFromHeelMm: number;
  /** Metatarsal heads from the heel end of the shoe; null: not measured. */
  readonly mth1FromHeelMm: number | null;
  readonly mth5FromHeelMm: number | null;
  /** Where the cleat's centre can be in the slots of the sole. */
  readonly slotsFromHeelMm: { readonly rear: number; readonly front: number };
  readonly found: CleatPlace | null;
  readonly left: CleatPlace | null;
}

export interface FeetWords {
  readonly sides: Readonly<Record<'left' | 'right', string>>;
  readonly mth1: string;
  readonly mth5: string;
  readonly midfoot: string;
  readonly found: string;
  readonly left: string;
  readonly notes: readonly string[];
}

const widthPx = 640;
const pxPerMm = 1.25;
const middle = widthPx / 2;
/** From the middle of the paper to the middle of a shoe. */
const aside = 92;

/** Half widths of a sole along its length, as shares of it: outer and inner side. Shape only. */
const sole: readonly (readonly [along: number, outer: number, inner: number])[] = [
  [0.03, 0.075, 0.075],
  [0.12, 0.115, 0.11],
  [0.3, 0.115, 0.1],
  [0.47, 0.125, 0.095],
  [0.63, 0.165, 0.145],
  [0.76, 0.165, 0.165],
  [0.88, 0.12, 0.155],
  [0.965, 0.045, 0.105],
];

/**
 * The soles from below, toes up, to scale along the foot: metatarsal heads, midfoot line, slots, cleats found in
 * outline and left in full. The right foot is on the left, as one sees it from below.
 */
export function feetFromBelow(of: {
  title: string;
  subtitle: string;
  feet: readonly FootFromBelow[];
  words: FeetWords;
}): Drawing {
  const { title, subtitle, feet, words } = of;
  const longest = Math.max(...feet.map(({ shoeLengthMm }) => shoeLengthMm));
  const heelY = bodyTop + 26 + longest * pxPerMm;
  const below = heelY + 54;
  const notes = notesBelow(words.notes, widthPx);
  return drawing({
    widthPx,
    heightPx: Math.ceil(below + 14 + notes.heightPx),
    title,
    subtitle,
    description: [
      ...feet.map((foot) => {
        const told = linesOf(foot, words).map(
          ({ words: name, fromHeelMm }) => `${name} ${number(fromHeelMm, 0)} mm`,
        );
        return `${words.sides[foot.side]}: ${told.join('; ')}.`;
      }),
      ...words.notes,
    ].join(' '),
    data: {
      columns: ['side', 'line', 'from_heel_mm'],
      rows: feet.flatMap((foot) =>
        linesOf(foot, words).map(({ id, fromHeelMm }) => [foot.side, id, fromHeelMm]),
      ),
    },
    body: [
      ...feet.flatMap((foot) => footBody(foot, heelY, words)),
      scaleBar(middle - 50 * pxPerMm, below - 14, 100, pxPerMm),
      ...notes.from(below + 12),
    ],
  });
}

interface Line {
  readonly id: 'mth1' | 'mth5' | 'midfoot' | 'found' | 'left';
  readonly words: string;
  readonly fromHeelMm: number;
}

function linesOf(foot: FootFromBelow, words: FeetWords): Line[] {
  const { mth1FromHeelMm, mth5FromHeelMm, midfootFromHeelMm, found, left } = foot;
  const all = {
    mth1: mth1FromHeelMm,
    mth5: mth5FromHeelMm,
    midfoot: midfootFromHeelMm,
    found: found?.fromHeelMm ?? null,
    left: left?.fromHeelMm ?? null,
  };
  return (Object.keys(all) as Line['id'][]).flatMap((id) => {
    const fromHeelMm = all[id];
    return fromHeelMm === null ? [] : [{ id, words: words[id], fromHeelMm }];
  });
}

function footBody(foot: FootFromBelow, heelY: number, words: FeetWords): string[] {
  // From below the right foot is on the left; its outer side points to the margin.
  const out = foot.side === 'right' ? -1 : 1;
  const centre = middle + out * aside;
  const y = (fromHeelMm: number): number => heelY - fromHeelMm * pxPerMm;
  const beside = (along: number, share: number): Place => ({
    x: centre + out * share * foot.shoeLengthMm * pxPerMm,
    y: y(along * foot.shoeLengthMm),
  });
  const outline = smoothClosed([
    beside(0, 0),
    ...sole.map(([along, outer]) => beside(along, outer)),
    beside(1, -0.035),
    ...[...sole].reverse().map(([along, , inner]) => beside(along, -inner)),
  ]);
  const lines = linesOf(foot, words);
  const labelled = spread(
    lines.map(({ fromHeelMm }) => y(fromHeelMm)),
    16,
  );
  const [outer, inner] = [centre + out * 58, centre - out * 58];
  const labelX = centre + out * 84;
  const { rear, front } = foot.slotsFromHeelMm;
  return [
    element('path', { d: outline, fill: colour.band, stroke: colour.middle, 'stroke-width': 1.5 }),
    element('rect', {
      ...{ x: centre - 20, y: y(front), width: 40, height: Math.max(1, y(rear) - y(front)) },
      ...{ fill: colour.faint, 'data-line': `${foot.side} slots` },
    }),
    ...(foot.left ? [cleat(foot.left, { centre, out, y: y(foot.left.fromHeelMm) }, full)] : []),
    ...(foot.found ? [cleat(foot.found, { centre, out, y: y(foot.found.fromHeelMm) }, outlined)] : []),
    ...lines.flatMap((item, index) => {
      const at = y(item.fromHeelMm);
      const labelY = labelled[index] ?? at;
      const style = styleOf(item.id);
      return [
        line(inner, at, outer, at, { 'data-line': `${foot.side} ${item.id}`, ...style }),
        line(outer, at, labelX - out * 4, labelY, { stroke: colour.middle, 'stroke-width': 0.7 }),
        label(labelX, labelY + 4, `${item.words} ${number(item.fromHeelMm, 0)}`, {
          'font-size': smallSize,
          'text-anchor': out === 1 ? 'start' : 'end',
          'font-weight': item.id === 'left' ? 'bold' : undefined,
        }),
      ];
    }),
    label(centre, heelY + 20, words.sides[foot.side], { 'text-anchor': 'middle', 'font-weight': 'bold' }),
  ];
}

function styleOf(id: Line['id']): Attributes {
  switch (id) {
    case 'midfoot':
      return { stroke: colour.ink, 'stroke-width': 1.2, 'stroke-dasharray': '9 3 2 3' };
    case 'mth1':
    case 'mth5':
      return { stroke: colour.ink, 'stroke-width': 1 };
    case 'found':
      return { stroke: colour.ink, 'stroke-width': 1.2, 'stroke-dasharray': '4 3' };
    case 'left':
      return { stroke: colour.strong, 'stroke-width': 2.4 };
  }
}

const full: Attributes = { fill: colour.strong, 'fill-opacity': 0.75, stroke: colour.strong };
const outlined: Attributes = {
  fill: 'none',
  stroke: colour.ink,
  'stroke-width': 1.4,
  'stroke-dasharray': '4 3',
};

/** A plate with its front cut; the toe turned out turns the plate in, seen on the sole. Shape only. */
function cleat(
  { rotationDeg }: CleatPlace,
  at: { centre: number; out: number; y: number },
  attributes: Attributes,
): string {
  const turned = (-at.out * (rotationDeg ?? 0) * Math.PI) / 180;
  const [cosine, sine] = [Math.cos(turned), Math.sin(turned)];
  const corners = [
    [-26, 24],
    [26, 24],
    [30, -8],
    [14, -26],
    [-14, -26],
    [-30, -8],
  ] as const;
  const places = corners.map(([x, y]) => ({
    x: at.centre + (x * cosine - y * sine) * pxPerMm,
    y: at.y + (x * sine + y * cosine) * pxPerMm,
  }));
  return element('polygon', { points: polyline(places), 'stroke-linejoin': 'round', ...attributes });
}

import { number } from '../axes.js';
import { bodyTop, drawing, marginX, type Drawing } from '../drawing.js';
import { element, group, label, line, type Attributes } from '../svg.js';
import { colour, smallSize } from '../style.js';
import { notesBelow } from './notes.js';
import { polyline, rounded, scaleBar, toScale, type Place, type PointMm, type ToScale } from './to-scale.js';

/** One position of bike and rider, from the bottom bracket. */
export interface SidePosture {
  readonly saddleTop: PointMm;
  readonly saddleTip: PointMm;
  readonly barCentre: PointMm;
  /** Hoods or grips, where the hands are; null: not measured. */
  readonly hoods: PointMm | null;
  /** Null where the leg was not measured. */
  readonly leg: {
    readonly hip: PointMm;
    readonly knee: PointMm;
    readonly ankle: PointMm;
    readonly spindle: PointMm;
    readonly heel: PointMm;
    readonly toe: PointMm;
  } | null;
  /** Trunk and arms above the hip: shape only. Null: left out. */
  readonly upperBody: { readonly shoulder: PointMm; readonly elbow: PointMm; readonly hand: PointMm } | null;
}

export interface SideViewWords {
  readonly found: string;
  readonly left: string;
  readonly points: Readonly<Record<SidePoint, string>>;
  /** What the picture says of itself, below it. */
  readonly notes: readonly string[];
}

const sidePoints = [
  'bottomBracket',
  'saddleTop',
  'saddleTip',
  'barCentre',
  'hoods',
  'hip',
  'knee',
  'ankle',
  'spindle',
  'heel',
  'toe',
  'shoulder',
  'elbow',
] as const;
export type SidePoint = (typeof sidePoints)[number];

const widthPx = 640;
const bodyHeight = 390;
const bottomBracket: PointMm = { xMm: 0, yMm: 0 };

/**
 * Bike and rider from the side, to scale: found in outline, left in full. Only what was measured is drawn. Joints and
 * contact points stand where they are; how thick a limb or a saddle is, is shape only.
 */
export function sideView(of: {
  title: string;
  subtitle: string;
  found: SidePosture | null;
  left: SidePosture | null;
  words: SideViewWords;
}): Drawing {
  const { title, subtitle, found, left, words } = of;
  const postures = [
    { stage: 'found' as const, posture: found },
    { stage: 'left' as const, posture: left },
  ].flatMap(({ stage, posture }) => (posture ? [{ stage, posture, points: pointsOf(posture) }] : []));
  const notes = notesBelow(words.notes, widthPx);
  const heightPx = bodyTop + bodyHeight + 62 + notes.heightPx;
  const scale = toScale(postures.flatMap(({ points }) => Object.values(points)).flatMap(padded), {
    left: marginX,
    top: bodyTop + 12,
    right: widthPx - marginX,
    bottom: bodyTop + bodyHeight,
  });
  const rows = postures.flatMap(({ stage, points }) =>
    sidePoints.flatMap((name) => {
      const point = points[name];
      return point ? [[stage, name, round(point.xMm), round(point.yMm)]] : [];
    }),
  );
  const below = bodyTop + bodyHeight + 30;
  return drawing({
    widthPx,
    heightPx,
    title,
    subtitle,
    description: [
      ...postures.map(({ stage, points }) => {
        const told = sidePoints
          .filter((name) => name !== 'bottomBracket' && points[name])
          .map((name) => `${words.points[name]} ${spelled(points[name] as PointMm)}`);
        return `${words[stage]}: ${told.join('; ')}.`;
      }),
      ...words.notes,
    ].join(' '),
    data: { columns: ['position', 'point', 'x_mm', 'y_mm'], rows },
    body: [
      ...(left ? fullPosture(left, scale) : []),
      ...(found ? outlinedPosture(found, scale) : []),
      ...bracket(scale.at(bottomBracket)),
      ...legend(below, words, { found: found !== null, left: left !== null }),
      scaleBar(widthPx - marginX - 200 * scale.pxPerMm - 60, below - 4, 200, scale.pxPerMm),
      ...notes.from(below + 24),
    ],
  });
}

const round = (value: number): number => Math.round(value * 10) / 10;
const spelled = ({ xMm, yMm }: PointMm): string => `(${number(xMm, 0)}, ${number(yMm, 0)}) mm`;

/** Room for what is drawn about a point. */
const padded = ({ xMm, yMm }: PointMm): PointMm[] => [
  { xMm: xMm - 80, yMm: yMm - 60 },
  { xMm: xMm + 80, yMm: yMm + 60 },
];

function pointsOf({
  saddleTop,
  saddleTip,
  barCentre,
  hoods,
  leg,
  upperBody,
}: SidePosture): Partial<Record<SidePoint, PointMm>> {
  return {
    ...{ bottomBracket, saddleTop, saddleTip, barCentre, ...(hoods && { hoods }), ...leg },
    ...(upperBody && { shoulder: upperBody.shoulder, elbow: upperBody.elbow }),
  };
}

function bracket({ x, y }: Place): string[] {
  return [
    element('circle', { cx: x, cy: y, r: 7, fill: colour.paper, stroke: colour.ink, 'stroke-width': 2 }),
    element('circle', { cx: x, cy: y, r: 2, fill: colour.ink, 'data-point': 'bottomBracket' }),
  ];
}

function fullPosture(posture: SidePosture, scale: ToScale): string[] {
  const { saddleTop, saddleTip, barCentre, hoods, leg } = posture;
  const place = scale.at;
  const bike: Attributes = { stroke: colour.ink, 'stroke-width': 3, 'stroke-linecap': 'round' };
  const limb: Attributes = { fill: colour.faint, stroke: colour.strong, 'stroke-width': 1.5 };
  return [
    between(place(bottomBracket), place(saddleTop), { ...bike, 'stroke-width': 4, stroke: colour.middle }),
    saddle(posture, scale, { fill: colour.ink, stroke: colour.ink }),
    ...(hoods ? [between(place(barCentre), place(hoods), bike)] : []),
    dot(place(barCentre), 6, { fill: colour.ink }, 'left barCentre'),
    ...(hoods ? [dot(place(hoods), 4, { fill: colour.ink }, 'left hoods')] : []),
    ...upper(posture, scale, limb),
    ...(leg
      ? [
          taperedLimb(leg.hip, leg.knee, [62, 46], scale, limb),
          taperedLimb(leg.knee, leg.ankle, [44, 28], scale, limb),
          foot(leg, scale, limb),
          between(place(bottomBracket), place(leg.spindle), { ...bike, 'stroke-width': 5 }),
          ...(['hip', 'knee', 'ankle', 'spindle'] as const).map((name) =>
            dot(place(leg[name]), 4.5, { fill: colour.strong }, `left ${name}`),
          ),
        ]
      : []),
    anchor(place(saddleTop), 'left saddleTop'),
    anchor(place(saddleTip), 'left saddleTip'),
  ];
}

/** On top of the full one, so nothing of it is filled. */
function outlinedPosture(posture: SidePosture, scale: ToScale): string[] {
  const { saddleTop, saddleTip, barCentre, hoods, leg } = posture;
  const place = scale.at;
  const outline: Attributes = {
    fill: 'none',
    stroke: colour.ink,
    'stroke-width': 1.3,
    'stroke-dasharray': '5 3',
  };
  const ring: Attributes = { fill: colour.paper, stroke: colour.ink, 'stroke-width': 1.3 };
  return [
    saddle(posture, scale, outline),
    ...(hoods ? [between(place(barCentre), place(hoods), outline)] : []),
    dot(place(barCentre), 6, outline, 'found barCentre'),
    ...(hoods ? [dot(place(hoods), 4, outline, 'found hoods')] : []),
    ...upper(posture, scale, outline),
    ...(leg
      ? [
          taperedLimb(leg.hip, leg.knee, [62, 46], scale, outline),
          taperedLimb(leg.knee, leg.ankle, [44, 28], scale, outline),
          foot(leg, scale, outline),
          between(place(bottomBracket), place(leg.spindle), outline),
          ...(['hip', 'knee', 'ankle', 'spindle'] as const).map((name) =>
            dot(place(leg[name]), 3, ring, `found ${name}`),
          ),
        ]
      : []),
    anchor(place(saddleTop), 'found saddleTop'),
    anchor(place(saddleTip), 'found saddleTip'),
  ];
}

const between = (from: Place, to: Place, attributes: Attributes): string =>
  line(from.x, from.y, to.x, to.y, attributes);

const dot = ({ x, y }: Place, r: number, attributes: Attributes, point: string): string =>
  element('circle', { cx: x, cy: y, r, 'data-point': point, ...attributes });

/** Marks a place that its shape does not. */
const anchor = (place: Place, point: string): string => dot(place, 0.5, { fill: colour.paper }, point);

/** Its top along the line from the tip to where the height is measured, and as much behind. */
function saddle({ saddleTop, saddleTip }: SidePosture, scale: ToScale, attributes: Attributes): string {
  const [tip, top] = [scale.at(saddleTip), scale.at(saddleTop)];
  const behind = { x: top.x - (tip.x - top.x) * 0.7, y: top.y - (tip.y - top.y) * 0.7 };
  const deep = 24 * scale.pxPerMm;
  const places = [tip, top, behind, { x: behind.x, y: behind.y + deep }, { x: top.x, y: top.y + 1.2 * deep }];
  return element('polygon', { points: polyline(places), 'stroke-linejoin': 'round', ...attributes });
}

function upper({ leg, upperBody }: SidePosture, scale: ToScale, attributes: Attributes): string[] {
  if (!leg || !upperBody) return [];
  const { shoulder, elbow, hand } = upperBody;
  return [
    taperedLimb(leg.hip, shoulder, [78, 64], scale, attributes),
    taperedLimb(elbow, hand, [30, 20], scale, attributes),
    taperedLimb(shoulder, elbow, [40, 31], scale, attributes),
  ];
}

/** Round at its ends. */
function taperedLimb(
  from: PointMm,
  to: PointMm,
  [halfFrom, halfTo]: readonly [number, number],
  scale: ToScale,
  attributes: Attributes,
): string {
  const long = Math.hypot(to.xMm - from.xMm, to.yMm - from.yMm);
  const across = { xMm: -(to.yMm - from.yMm) / long, yMm: (to.xMm - from.xMm) / long };
  const beside = (point: PointMm, by: number): Place =>
    scale.at({ xMm: point.xMm + by * across.xMm, yMm: point.yMm + by * across.yMm });
  const spell = ({ x, y }: Place): string => `${rounded(x)} ${rounded(y)}`;
  const roundEnd = (half: number, end: Place): string => {
    const radius = rounded(half * scale.pxPerMm);
    return `A ${radius} ${radius} 0 0 1 ${spell(end)}`;
  };
  const d = [
    `M ${spell(beside(from, halfFrom))}`,
    `L ${spell(beside(to, halfTo))}`,
    roundEnd(halfTo, beside(to, -halfTo)),
    `L ${spell(beside(from, -halfFrom))}`,
    `${roundEnd(halfFrom, beside(from, halfFrom))} Z`,
  ];
  return element('path', { d: d.join(' '), ...attributes });
}

function foot(
  { heel, toe, ankle }: NonNullable<SidePosture['leg']>,
  scale: ToScale,
  attributes: Attributes,
): string {
  const along = (share: number, up: number): PointMm => {
    const long = Math.hypot(toe.xMm - heel.xMm, toe.yMm - heel.yMm);
    const [dx, dy] = [(toe.xMm - heel.xMm) / long, (toe.yMm - heel.yMm) / long];
    return {
      xMm: heel.xMm + share * (toe.xMm - heel.xMm) - up * dy,
      yMm: heel.yMm + share * (toe.yMm - heel.yMm) + up * dx,
    };
  };
  const places = [heel, toe, along(1.01, 28), along(0.62, 62), ankle, along(-0.01, 70)].map(scale.at);
  return element('polygon', { points: polyline(places), 'stroke-linejoin': 'round', ...attributes });
}

function legend(y: number, words: SideViewWords, shown: { found: boolean; left: boolean }): string[] {
  const box = (x: number, attributes: Attributes): string =>
    element('rect', { x, y: y - 10, width: 26, height: 12, ...attributes });
  const full = box(marginX, { fill: colour.faint, stroke: colour.strong, 'stroke-width': 1.5 });
  const foundAt = shown.left ? marginX + 150 : marginX;
  const outlined = box(foundAt, {
    fill: 'none',
    stroke: colour.ink,
    'stroke-width': 1.3,
    'stroke-dasharray': '5 3',
  });
  return [
    ...(shown.left ? [group({}, full, label(marginX + 34, y, words.left, { 'font-size': smallSize }))] : []),
    ...(shown.found
      ? [group({}, outlined, label(foundAt + 34, y, words.found, { 'font-size': smallSize }))]
      : []),
  ];
}

import { axisBelow, axisLeft, number } from '../axes.js';
import { bodyTop, drawing, marginX, type Drawing } from '../drawing.js';
import { scaleFor, type Scale } from '../scale.js';
import { element, label, line, type Attributes } from '../svg.js';
import { colour, smallSize } from '../style.js';
import { polyline } from './to-scale.js';

/** Knee flexion over a turn of the crank. */
export interface KneeTurn {
  /** In order, from top dead centre; the last leads back to the first. */
  readonly samples: readonly { readonly crankDeg: number; readonly kneeFlexionDeg: number }[];
  readonly straightest: { readonly crankDeg: number; readonly kneeFlexionDeg: number };
}

export interface KneeWords {
  readonly found: string;
  readonly left: string;
  readonly crank: string;
  readonly knee: string;
  readonly straightest: string;
}

const widthPx = 640;
const heightPx = 380;

/** Knee flexion over one turn, found and left, with the straightest place of each. */
export function kneeCurve(of: {
  title: string;
  subtitle: string;
  found: KneeTurn | null;
  left: KneeTurn | null;
  words: KneeWords;
}): Drawing {
  const { title, subtitle, words } = of;
  const turns = [
    { stage: 'found' as const, turn: of.found },
    { stage: 'left' as const, turn: of.left },
  ].flatMap(({ stage, turn }) => (turn ? [{ stage, turn }] : []));
  const [top, floor] = [bodyTop + 44, heightPx - 56];
  const [left, right] = [marginX + 34, widthPx - marginX - 14];
  const x: Scale = {
    low: 0,
    high: 360,
    ticks: [0, 45, 90, 135, 180, 225, 270, 315, 360],
    at: (crankDeg) => left + (crankDeg / 360) * (right - left),
  };
  const values = turns.flatMap(({ turn }) => turn.samples.map(({ kneeFlexionDeg }) => kneeFlexionDeg));
  const y = scaleFor([...values, 0], floor, top);
  return drawing({
    widthPx,
    heightPx,
    title,
    subtitle,
    description: turns
      .map(({ stage, turn }) => {
        const flexions = turn.samples.map(({ kneeFlexionDeg }) => kneeFlexionDeg);
        const { crankDeg, kneeFlexionDeg } = turn.straightest;
        return `${words[stage]}: ${words.straightest} ${number(kneeFlexionDeg, 0)}° (${words.crank} ${number(crankDeg, 0)}°), ${number(Math.min(...flexions), 0)}–${number(Math.max(...flexions), 0)}°.`;
      })
      .join(' '),
    data: {
      columns: ['position', 'crank_deg', 'knee_flexion_deg'],
      rows: turns.flatMap(({ stage, turn }) =>
        turn.samples.map(({ crankDeg, kneeFlexionDeg }) => [
          stage,
          crankDeg,
          Number(kneeFlexionDeg.toFixed(2)),
        ]),
      ),
    },
    body: [
      ...axisLeft(y, left, { name: words.knee, gridTo: right }),
      ...axisBelow(x, floor, { name: words.crank }),
      ...turns.flatMap(({ stage, turn }, index) => [
        element('polyline', {
          points: polyline(
            [...turn.samples, { ...turn.samples[0], crankDeg: 360 }].map((sample) => ({
              x: x.at(sample.crankDeg),
              y: y.at(sample.kneeFlexionDeg ?? 0),
            })),
          ),
          fill: 'none',
          'data-curve': stage,
          ...styles[stage],
        }),
        element('circle', {
          ...{ cx: x.at(turn.straightest.crankDeg), cy: y.at(turn.straightest.kneeFlexionDeg), r: 4.5 },
          ...{ fill: stage === 'left' ? colour.strong : colour.paper, stroke: colour.ink },
        }),
        ...legend(stage, turn, index, words),
      ]),
    ],
  });
}

const styles: Readonly<Record<'found' | 'left', Attributes>> = {
  found: { stroke: colour.ink, 'stroke-width': 1.6, 'stroke-dasharray': '6 4' },
  left: { stroke: colour.strong, 'stroke-width': 2.8 },
};

function legend(
  stage: 'found' | 'left',
  { straightest }: KneeTurn,
  index: number,
  words: KneeWords,
): string[] {
  const [from, y] = [marginX + index * 296, bodyTop + 8];
  const { kneeFlexionDeg, crankDeg } = straightest;
  const told = `${words[stage]}: ${words.straightest} ${number(kneeFlexionDeg, 0)}° @ ${number(crankDeg, 0)}°`;
  return [
    line(from, y - 4, from + 30, y - 4, styles[stage]),
    label(from + 38, y, told, { 'font-size': smallSize }),
  ];
}

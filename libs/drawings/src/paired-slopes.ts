import { axisLeft, number, signed } from './axes.js';
import { bodyTop, drawing, type Drawing } from './drawing.js';
import { scaleFor } from './scale.js';
import { element, label, line } from './svg.js';
import { colour, smallSize } from './style.js';

export type Verdict = 'better' | 'no real change' | 'worse' | 'cannot tell';

export interface SlopePair {
  readonly before: number;
  readonly after: number;
  readonly verdict: Verdict;
}

const widthPx = 600;
const heightPx = 420;
const beforeX = 130;
const afterX = 350;
/** More lines than this would be a grey field. */
const mostLines = 150;

const strokes: Readonly<Record<Verdict, { stroke: string; dash?: string }>> = {
  better: { stroke: colour.strong },
  'no real change': { stroke: colour.faint },
  worse: { stroke: colour.ink, dash: '5 3' },
  'cannot tell': { stroke: colour.faint },
};

/**
 * Every person's value before and after as a line, and the means as a thick one. Equal lines become one, the thicker
 * the more there are; beyond 150, evenly picked ones by size of change are drawn, and it says so.
 *
 * @param unit behind the numbers, such as `W` or `of 10`
 * @throws RangeError when nobody is there
 */
export function pairedSlopes(of: {
  title: string;
  subtitle: string;
  unit: string;
  pairs: readonly SlopePair[];
}): Drawing {
  const { title, subtitle, unit, pairs } = of;
  if (pairs.length === 0) throw new RangeError('there must be somebody to draw');
  const y = scaleFor(
    pairs.flatMap(({ before, after }) => [before, after]),
    heightPx - 60,
    bodyTop + 30,
  );
  const drawn = evenlyPicked(pairs);
  const mean = {
    before: meanOf(pairs.map(({ before }) => before)),
    after: meanOf(pairs.map(({ after }) => after)),
  };
  const count = (verdict: Verdict): number => pairs.filter((pair) => pair.verdict === verdict).length;
  const counts = [
    `better: ${count('better')}`,
    `no real change: ${count('no real change') + count('cannot tell')}`,
    `worse: ${count('worse')}`,
  ] as const;
  const picked = drawn.length < pairs.length ? `${drawn.length} of ${pairs.length} are drawn` : null;
  const legend = afterX + 62;

  return drawing({
    widthPx,
    heightPx,
    title,
    subtitle,
    description:
      `${pairs.length} people before and after (${unit}). Mean ${number(mean.before)} before, ${number(mean.after)} after ` +
      `(${signed(mean.after - mean.before)}). ${counts.join(', ')}.${picked === null ? '' : ` ${picked}.`}`,
    data: {
      columns: ['before', 'after', 'verdict'],
      rows: pairs.map(({ before, after, verdict }) => [before, after, verdict]),
    },
    body: [
      ...axisLeft(y, 70, { name: unit, gridTo: afterX + 30 }),
      ...thickened(drawn).map(({ before, after, verdict, width }) =>
        line(beforeX, y.at(before), afterX, y.at(after), {
          stroke: strokes[verdict].stroke,
          'stroke-width': width,
          'stroke-dasharray': strokes[verdict].dash,
        }),
      ),
      line(beforeX, y.at(mean.before), afterX, y.at(mean.after), { stroke: colour.paper, 'stroke-width': 8 }),
      line(beforeX, y.at(mean.before), afterX, y.at(mean.after), { stroke: colour.ink, 'stroke-width': 4 }),
      ...[[beforeX, mean.before] as const, [afterX, mean.after] as const].map(([x, value]) =>
        element('circle', {
          cx: x,
          cy: y.at(value),
          r: 6,
          fill: colour.ink,
          stroke: colour.paper,
          'stroke-width': 2,
        }),
      ),
      label(beforeX, heightPx - 28, 'before', { 'text-anchor': 'middle' }),
      label(afterX, heightPx - 28, 'after', { 'text-anchor': 'middle' }),
      ...(['better', 'no real change', 'worse'] as const).flatMap((verdict, index) => {
        const top = bodyTop + 40 + 26 * index;
        return [
          line(legend, top, legend + 26, top, {
            stroke: strokes[verdict].stroke,
            'stroke-width': 2.5,
            'stroke-dasharray': strokes[verdict].dash,
          }),
          label(legend + 32, top + 4, counts[index] ?? '', { 'font-size': smallSize }),
        ];
      }),
      line(legend, bodyTop + 118, legend + 26, bodyTop + 118, { stroke: colour.ink, 'stroke-width': 4 }),
      label(legend + 32, bodyTop + 122, 'mean', { 'font-size': smallSize }),
      ...(picked === null ? [] : [label(legend, bodyTop + 148, picked, { 'font-size': smallSize })]),
    ],
  });
}

const meanOf = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

function evenlyPicked(pairs: readonly SlopePair[]): readonly SlopePair[] {
  if (pairs.length <= mostLines) return pairs;
  const byChange = [...pairs].sort((one, other) => one.after - one.before - (other.after - other.before));
  return Array.from(
    { length: mostLines },
    (_, index) => byChange[Math.round((index * (byChange.length - 1)) / (mostLines - 1))] as SlopePair,
  );
}

/** Equal lines as one; those of no real change come first, so that the others lie on top. */
function thickened(pairs: readonly SlopePair[]): (SlopePair & { width: number })[] {
  const counts = new Map<string, { pair: SlopePair; count: number }>();
  for (const pair of pairs) {
    const key = `${pair.before}/${pair.after}`;
    const same = counts.get(key);
    if (same) same.count += 1;
    else counts.set(key, { pair, count: 1 });
  }
  const order: Readonly<Record<Verdict, number>> = {
    'cannot tell': 0,
    'no real change': 1,
    better: 2,
    worse: 3,
  };
  return [...counts.values()]
    .map(({ pair, count }) => ({ ...pair, width: Math.min(7, 1.2 * Math.sqrt(count)) }))
    .sort((one, other) => order[one.verdict] - order[other.verdict]);
}

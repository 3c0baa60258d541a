import { axisBelow, axisLeft, number, signed } from './axes.js';
import { bodyTop, drawing, type Drawing } from './drawing.js';
import { scaleFor } from './scale.js';
import { element, label, line } from './svg.js';
import { colour, smallSize } from './style.js';

const widthPx = 640;
const heightPx = 420;
const left = 70;
const right = 500;

/**
 * How far two ways of getting the same number lie apart, along their mean; with the mean difference and the limits
 * within which 95 % of the differences lie.
 *
 * @param limits null when too few to say
 * @throws RangeError when there is no pair
 * @source Bland & Altman 1986, Lancet i:307–310
 */
export function agreementPlot(of: {
  title: string;
  subtitle: string;
  unit: string;
  firstName: string;
  secondName: string;
  pairs: readonly { readonly first: number; readonly second: number }[];
  bias: number;
  limits: { readonly low: number; readonly high: number } | null;
}): Drawing {
  const { title, subtitle, unit, firstName, secondName, pairs, bias, limits } = of;
  if (pairs.length === 0) throw new RangeError('there must be a pair to draw');
  const points = pairs.map(({ first, second }) => ({
    mean: (first + second) / 2,
    difference: second - first,
  }));
  const floor = heightPx - 62;
  const x = scaleFor(
    points.map(({ mean }) => mean),
    left,
    right,
    8,
  );
  const y = scaleFor(
    [0, bias, ...points.map(({ difference }) => difference), ...(limits ? [limits.low, limits.high] : [])],
    floor,
    bodyTop + 30,
  );
  const marks = spread(
    [
      { value: bias, words: `mean ${signed(bias)}`, dash: undefined },
      ...(limits
        ? [
            { value: limits.high, words: `95 % below ${signed(limits.high)}`, dash: '7 4' },
            { value: limits.low, words: `95 % above ${signed(limits.low)}`, dash: '7 4' },
          ]
        : []),
    ],
    (value) => y.at(value) + 4,
    floor + 4,
  );

  return drawing({
    widthPx,
    heightPx,
    title,
    subtitle,
    description:
      `${pairs.length} pairs, ${secondName} minus ${firstName}, ${unit}: mean difference ${signed(bias)}` +
      (limits === null ? '.' : `; 95 % lie within ${number(limits.low)} to ${number(limits.high)}.`),
    data: {
      columns: [firstName, secondName, 'difference'],
      rows: pairs.map(({ first, second }) => [first, second, second - first]),
    },
    body: [
      ...axisLeft(y, left, {
        name: `${secondName} minus ${firstName}, ${unit}`,
        gridTo: right,
        spell: signed,
      }),
      ...(limits
        ? [
            element('rect', {
              x: left,
              y: y.at(limits.high),
              width: right - left,
              height: y.at(limits.low) - y.at(limits.high),
              fill: colour.band,
            }),
          ]
        : []),
      line(left, y.at(0), right, y.at(0), { stroke: colour.ink, 'stroke-dasharray': '2 3' }),
      ...points.map(({ mean, difference }) =>
        element('circle', {
          cx: x.at(mean),
          cy: y.at(difference),
          r: 4,
          fill: 'none',
          stroke: colour.strong,
          'stroke-width': 1.5,
        }),
      ),
      ...marks.flatMap(({ value, words, dash, labelY }) => [
        line(left, y.at(value), right, y.at(value), {
          stroke: colour.ink,
          'stroke-width': 1.5,
          'stroke-dasharray': dash,
        }),
        label(right + 8, labelY, words, { 'font-size': smallSize }),
      ]),
      ...axisBelow(x, floor + 10, { name: `mean of ${firstName} and ${secondName}, ${unit}` }),
    ],
  });
}

const lineHeight = 15;

/** Places for the words beside the lines, pushed apart where lines lie close, and none below the lowest place. */
function spread<Mark extends { readonly value: number }>(
  marks: readonly Mark[],
  placeOf: (value: number) => number,
  lowest: number,
): (Mark & { labelY: number })[] {
  let above = -Infinity;
  const sorted = [...marks].sort((one, other) => other.value - one.value);
  return sorted.map((mark, index) => {
    const room = lowest - lineHeight * (sorted.length - 1 - index);
    above = Math.min(room, Math.max(placeOf(mark.value), above + lineHeight));
    return { ...mark, labelY: above };
  });
}

import { axisBelow, axisLeft, number, signed } from './axes.js';
import { bodyTop, drawing, type Drawing } from './drawing.js';
import { scaleFor } from './scale.js';
import { element, label, line } from './svg.js';
import { colour, smallSize } from './style.js';

const widthPx = 560;
const heightPx = 360;

/**
 * How many changed by how much, against the band within which a change of one person can be chance, or too little to
 * matter; below it the mean change with its interval.
 *
 * @param changes after minus before
 * @param bandHalfWidth in the same unit; null when none is known
 * @throws RangeError when nobody is there
 */
export function changeDistribution(of: {
  title: string;
  subtitle: string;
  unit: string;
  changes: readonly number[];
  bandHalfWidth: number | null;
  meanChange: number;
  interval95: { readonly low: number; readonly high: number } | null;
}): Drawing {
  const { title, subtitle, unit, changes, bandHalfWidth, meanChange, interval95 } = of;
  if (changes.length === 0) throw new RangeError('there must be somebody to draw');
  const [left, right] = [70, widthPx - 34];
  const floor = heightPx - 96;
  const { bins, whole } = binned(changes);
  const band = bandHalfWidth ?? 0;
  // A whole number lies in the middle of its bin; the band takes in the bins of those below it.
  const bandEnd = whole ? Math.max(0, Math.ceil(band) - 0.5) : band;
  const x = scaleFor(
    [
      ...bins.flatMap(({ low, high }) => [low, high]),
      -bandEnd,
      bandEnd,
      ...(interval95 ? [interval95.low, interval95.high] : []),
    ],
    left,
    right,
    8,
  );
  const y = scaleFor([0, ...bins.map(({ count }) => count)], floor, bodyTop + 34, 4);
  const outside = changes.filter((change) => Math.abs(change) >= band).length;
  const meanY = floor + 24;

  return drawing({
    widthPx,
    heightPx,
    title,
    subtitle,
    description:
      `Change of ${changes.length} people (${unit}). Mean ${signed(meanChange)}` +
      (interval95 === null
        ? '.'
        : ` (95 % interval ${number(interval95.low)} to ${number(interval95.high)}).`) +
      (bandHalfWidth === null
        ? ''
        : ` Changes smaller than ${number(band)} can be chance or too little to matter; ${outside} reach it.`),
    data: {
      columns: ['from', 'below', 'people'],
      rows: bins.map(({ low, high, count }) => [low, high, count]),
    },
    body: [
      ...(bandHalfWidth === null
        ? []
        : [
            element('rect', {
              x: x.at(-bandEnd),
              y: bodyTop + 34,
              width: x.at(bandEnd) - x.at(-bandEnd),
              height: floor - bodyTop - 34,
              fill: colour.band,
            }),
            label(
              clamped(x.at(0), left + 80, right - 80),
              bodyTop + 8,
              `less than ± ${number(band)}: no real change`,
              {
                'text-anchor': 'middle',
                'font-size': smallSize,
              },
            ),
          ]),
      ...axisLeft(y, left, { name: 'people' }),
      ...bins
        .filter(({ count }) => count > 0)
        .map(({ low, high, count }) =>
          element('rect', {
            x: x.at(low) + 1,
            y: y.at(count),
            width: Math.max(1, x.at(high) - x.at(low) - 2),
            height: floor - y.at(count),
            fill: colour.middle,
          }),
        ),
      line(x.at(0), bodyTop + 34, x.at(0), floor + 40, { stroke: colour.ink, 'stroke-dasharray': '2 3' }),
      ...(interval95 === null
        ? []
        : [
            line(x.at(interval95.low), meanY, x.at(interval95.high), meanY, {
              stroke: colour.ink,
              'stroke-width': 3,
            }),
          ]),
      element('circle', { cx: x.at(meanChange), cy: meanY, r: 5, fill: colour.ink }),
      label(left - 8, meanY + 4, 'mean', { 'text-anchor': 'end', 'font-size': smallSize }),
      ...axisBelow(x, floor + 44, { name: `change, ${unit}`, spell: signed }),
    ],
  });
}

const clamped = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));

interface Bin {
  readonly low: number;
  readonly high: number;
  readonly count: number;
}

/** Whole numbers each in the middle of a bin of its own; otherwise round bins, about the root of the count of them. */
function binned(changes: readonly number[]): { bins: Bin[]; whole: boolean } {
  const least = changes.reduce((one, other) => Math.min(one, other));
  const most = changes.reduce((one, other) => Math.max(one, other));
  const whole = changes.every(Number.isInteger) && most - least <= 30;
  const wished = Math.min(24, Math.max(5, Math.ceil(Math.sqrt(changes.length))));
  const { ticks } = scaleFor([least, most], 0, 1, wished);
  const width = whole ? 1 : (ticks[1] ?? 1) - (ticks[0] ?? 0);
  const start = whole ? least - 0.5 : (ticks[0] ?? 0);
  const bins = Math.max(1, Math.floor((most - start) / width + 1e-9) + 1);
  const counts = Array.from({ length: bins }, () => 0);
  for (const change of changes) {
    const at = Math.min(bins - 1, Math.floor((change - start) / width + 1e-9));
    counts[at] = (counts[at] ?? 0) + 1;
  }
  const edge = (index: number): number => Number((start + index * width).toPrecision(12));
  return { whole, bins: counts.map((count, index) => ({ low: edge(index), high: edge(index + 1), count })) };
}

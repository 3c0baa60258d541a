import { axisLeft, number } from './axes.js';
import { bodyTop, drawing, marginX, type Drawing } from './drawing.js';
import { scaleFor } from './scale.js';
import { element, label, line } from './svg.js';
import { colour, smallSize } from './style.js';

export interface CoursePanel {
  readonly label: string;
  readonly unit: string;
  readonly better: 'higher' | 'lower';
  /** Ends of the measure's scale; null where it has none. */
  readonly scale: { readonly low: number; readonly high: number } | null;
  /** Changes from the first value smaller than this are no real change; null when not known. */
  readonly bandHalfWidth: number | null;
  readonly points: readonly { readonly week: number; readonly value: number | null }[];
}

const panelWidth = 270;
const heightPx = 332;

/**
 * One person's measures over time, side by side, each with the band around the value from before within which there is
 * no real change. The line over a week without a value is broken.
 */
export function courseOverTime(of: {
  title: string;
  subtitle: string;
  panels: readonly CoursePanel[];
}): Drawing {
  const { title, subtitle, panels } = of;
  return drawing({
    widthPx: Math.max(1, panels.length) * panelWidth + 2 * marginX,
    heightPx,
    title,
    subtitle,
    description: panels
      .map(
        ({ label: name, unit, points }) =>
          `${name} (${unit}): ${points.map(({ week, value }) => `${weekName(week)} ${value === null ? 'not answered' : number(value)}`).join(', ')}.`,
      )
      .join(' '),
    data: {
      columns: ['measure', 'unit', 'week', 'value'],
      rows: panels.flatMap(({ label: name, unit, points }) =>
        points.map(({ week, value }) => [name, unit, week, value]),
      ),
    },
    body: panels.flatMap((panel, index) => panelBody(panel, marginX + index * panelWidth)),
  });
}

function panelBody(
  { label: name, unit, better, scale, bandHalfWidth, points }: CoursePanel,
  from: number,
): string[] {
  const [left, right, top, floor] = [from + 42, from + panelWidth - 34, bodyTop + 62, heightPx - 56];
  const known = points.flatMap(({ week, value }) => (value === null ? [] : [{ week, value }]));
  const before = points.find(({ week }) => week === 0)?.value ?? null;
  const band =
    before === null || bandHalfWidth === null
      ? null
      : {
          low: Math.max(before - bandHalfWidth, scale?.low ?? -Infinity),
          high: Math.min(before + bandHalfWidth, scale?.high ?? Infinity),
        };
  const y = scaleFor(
    [
      ...(scale ? [scale.low, scale.high] : []),
      ...known.map(({ value }) => value),
      ...(band ? [band.low, band.high] : []),
    ],
    floor,
    top,
    5,
  );
  // Weeks stand side by side in their order: there are few, and their numbers are written under them.
  const places = points.map(({ week }) => week);
  const x = (week: number): number =>
    places.length < 2
      ? (left + right) / 2
      : left + 14 + (places.indexOf(week) * (right - left - 28)) / (places.length - 1);
  return [
    label(from, bodyTop + 12, name, { 'font-weight': 'bold' }),
    label(from, bodyTop + 27, `${better} is better`, { 'font-size': smallSize, fill: colour.middle }),
    ...axisLeft(y, left, { name: unit, gridTo: right }),
    ...(band
      ? [
          element('rect', {
            x: left,
            y: y.at(band.high),
            width: right - left,
            height: y.at(band.low) - y.at(band.high),
            fill: colour.band,
          }),
        ]
      : []),
    ...known.slice(1).map(({ week, value }, index) => {
      const last = known[index] ?? { week, value };
      const skips = places.indexOf(week) - places.indexOf(last.week) > 1;
      return line(x(last.week), y.at(last.value), x(week), y.at(value), {
        stroke: colour.strong,
        'stroke-width': 2.5,
        'stroke-dasharray': skips ? '4 5' : undefined,
      });
    }),
    ...known.flatMap(({ week, value }, index) => [
      element('circle', {
        cx: x(week),
        cy: y.at(value),
        r: 5,
        fill: week === 0 ? colour.paper : colour.strong,
        stroke: colour.strong,
        'stroke-width': 2,
      }),
      // Out of the way of a line that goes up from here.
      label(
        x(week) + 9,
        y.at(value) + ((known[index + 1]?.value ?? value) > value ? 18 : -8),
        number(value),
        {
          'font-size': smallSize,
          'font-weight': 'bold',
        },
      ),
    ]),
    ...points.map(({ week }) =>
      label(x(week), floor + 36, weekName(week), { 'text-anchor': 'middle', 'font-size': smallSize }),
    ),
  ];
}

const weekName = (week: number): string => (week === 0 ? 'before' : `week ${week}`);

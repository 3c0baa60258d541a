import { axisBelow, number, signed } from './axes.js';
import { bodyTop, drawing, marginX, shortened, type Drawing } from './drawing.js';
import { scaleFor } from './scale.js';
import { element, label, line } from './svg.js';
import { colour, smallSize, textSize } from './style.js';

export interface ForestRow {
  readonly label: string;
  readonly unit: string;
  readonly n: number;
  /** Mean change, after minus before; null when nobody can be compared. */
  readonly change: number | null;
  readonly interval95: { readonly low: number; readonly high: number } | null;
  readonly better: 'higher' | 'lower';
  /** A change of this size matters. Above 0. */
  readonly important: number;
}

const widthPx = 760;
const rowHeight = 46;
const plotLeft = 220;
const plotRight = 540;

/**
 * The mean changes of several measures under one another. As their units differ, each is drawn in changes that matter:
 * 1 is an important change for the better, −1 for the worse; the number beside it is in the measure's own unit.
 *
 * @throws RangeError when an important change is not above 0
 */
export function measureForest(of: { title: string; subtitle: string; rows: readonly ForestRow[] }): Drawing {
  const { title, subtitle, rows } = of;
  if (rows.some(({ important }) => !(important > 0))) throw new RangeError('an important change is above 0');
  const inImportant = ({ better, important }: ForestRow, change: number): number =>
    ((better === 'higher' ? 1 : -1) * change) / important;
  const top = bodyTop + 34;
  const bottom = top + rowHeight * rows.length;
  const heightPx = bottom + 60;
  const ends = rows.flatMap((row) =>
    [row.change, row.interval95?.low ?? null, row.interval95?.high ?? null].flatMap((value) =>
      value === null ? [] : [inImportant(row, value)],
    ),
  );
  const x = scaleFor([-1.2, 1.2, ...ends], plotLeft, plotRight);

  return drawing({
    widthPx,
    heightPx,
    title,
    subtitle,
    description:
      'Mean changes in changes that matter, better to the right. ' +
      rows.map((row) => `${row.label}: ${told(row)}; n ${row.n}.`).join(' '),
    data: {
      columns: ['measure', 'unit', 'n', 'mean change', 'interval low', 'interval high', 'important change'],
      rows: rows.map(({ label: name, unit, n, change, interval95, important }) => [
        name,
        unit,
        n,
        change,
        interval95?.low ?? null,
        interval95?.high ?? null,
        important,
      ]),
    },
    body: [
      element('rect', {
        x: x.at(-1),
        y: top - 10,
        width: x.at(1) - x.at(-1),
        height: bottom - top + 10,
        fill: colour.band,
      }),
      line(x.at(0), top - 10, x.at(0), bottom, { stroke: colour.ink, 'stroke-dasharray': '2 3' }),
      label(x.at(0), top - 18, 'worse – no change – better', {
        'text-anchor': 'middle',
        'font-size': smallSize,
      }),
      ...rows.flatMap((row, index) => {
        const y = top + rowHeight * (index + 0.5);
        const { interval95, change } = row;
        const ends95 = interval95 && [inImportant(row, interval95.low), inImportant(row, interval95.high)];
        return [
          label(marginX, y - 2, shortened(row.label, plotLeft - marginX - 10, textSize)),
          label(marginX, y + 14, `n ${row.n}`, { 'font-size': smallSize, fill: colour.middle }),
          ...(ends95
            ? [
                line(x.at(Math.min(...ends95)), y, x.at(Math.max(...ends95)), y, {
                  stroke: colour.ink,
                  'stroke-width': 2.5,
                }),
              ]
            : []),
          ...(change === null
            ? []
            : [
                element('rect', {
                  x: x.at(inImportant(row, change)) - 5,
                  y: y - 5,
                  width: 10,
                  height: 10,
                  fill: colour.strong,
                  stroke: colour.paper,
                }),
              ]),
          label(plotRight + 16, y + 4, shortened(told(row), widthPx - plotRight - 26, smallSize), {
            'font-size': smallSize,
          }),
        ];
      }),
      ...axisBelow(x, bottom + 6, { name: 'mean change, in changes that matter', spell: signed }),
    ],
  });
}

function told({ change, interval95, unit }: ForestRow): string {
  if (change === null) return 'not known';
  const range = interval95 === null ? '' : ` (${number(interval95.low)} to ${number(interval95.high)})`;
  return `${signed(change)}${range} ${unit}`;
}

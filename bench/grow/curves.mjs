import { drawing } from '../../libs/drawings/dist/drawing.js';
import { colour, smallSize } from '../../libs/drawings/dist/style.js';
import { element, label, line } from '../../libs/drawings/dist/svg.js';

const [panelWidth, panelHeight, across] = [430, 250, 2];
const [left, right, top, bottom] = [58, 150, 34, 34];
/** Of the axis, in milliseconds; each tenfold is as far. */
const [least, most] = [1, 100_000];
const named = 4;

/** What is alike belongs into one panel, by the name of the operation. @type {readonly [string, RegExp][]} */
const panels = [
  ['One record', /^(get(?!DaySheet|OpeningHours)|show|open(?!FitSession)|compare)/],
  ['Lists', /^list(?!Slots|Outcomes|SaddleOffsets|DayTotals|Clients, by|Appointments)[^,]*$/],
  ['Searches and later pages', /,(?! of midfoot)|^findSimilar/],
  ['The day, and what is free', /^(listSlots|firstSlots|getDaySheet|listAppointments|getOpeningHours)/],
  [
    'All of a studio: reviews, exports, checks',
    /^(review|ask|draw|export|check|verify|listOutcomes|listSaddle|listDayTotals)/,
  ],
  ['Writes', /^(create|write|openFitSession|record)/],
];

/**
 * A line for each operation, from the smallest share to the largest.
 *
 * @param {readonly import('./costs.mjs').Measured[]} measured
 */
export function curves(measured) {
  const last = measured.at(-1);
  const names = last?.costs.map(({ name }) => name) ?? [];
  /** @param {string} name */
  const timesOf = (name) => measured.map(({ costs }) => costs.find((one) => one.name === name)?.ms ?? NaN);
  const taken = new Set();
  const body = panels.flatMap(([title, which], at) => {
    const own = names.filter((name) => which.test(name) && !taken.has(name));
    for (const name of own) taken.add(name);
    const x = (at % across) * panelWidth;
    const y = 60 + Math.floor(at / across) * panelHeight;
    const lines = own.map((name) => ({ name, times: timesOf(name) }));
    return panel({
      title: `${title} (${own.length})`,
      x,
      y,
      lines,
      shares: measured.map(({ share }) => share),
    });
  });
  const rows = (last?.tables ?? []).reduce((sum, table) => sum + table.rows, 0);
  return drawing({
    widthPx: across * panelWidth,
    heightPx: 70 + Math.ceil(panels.length / across) * panelHeight,
    title: 'What a request costs as the studios grow',
    subtitle: `${last?.studios ?? 0} studios; milliseconds of a request through the whole API, one after another, median; up to ${(rows / 1e6).toFixed(1)} million rows`,
    description: names
      .map(
        (name) =>
          `${name}: ${timesOf(name)
            .map((ms) => `${ms.toFixed(1)} ms`)
            .join(', ')}`,
      )
      .join('. '),
    data: {
      columns: ['operation', ...measured.map(({ share }) => `ms at ${share * 100} %`)],
      rows: names.map((name) => [name, ...timesOf(name)]),
    },
    body,
  }).svg;
}

/**
 * @param {{
 *   title: string, x: number, y: number, shares: readonly number[], lines: readonly { name: string, times: number[] }[],
 * }} parts
 */
function panel({ title, x, y, shares, lines }) {
  const [from, to] = [x + left, x + panelWidth - right];
  const [floor, ceiling] = [y + panelHeight - bottom, y + top];
  const tenfolds = shares.map((share) => Math.log10(share / (shares[0] ?? share)));
  const placeX = (/** @type {number} */ at) =>
    from + ((tenfolds[at] ?? 0) / (tenfolds.at(-1) || 1)) * (to - from);
  const placeY = (/** @type {number} */ ms) =>
    floor - (Math.log10(Math.max(ms, least) / least) / Math.log10(most / least)) * (floor - ceiling);
  const ticks = [1, 10, 100, 1000, 10_000, 100_000];
  const slowest = [...lines]
    .sort((one, other) => (other.times.at(-1) ?? 0) - (one.times.at(-1) ?? 0))
    .slice(0, named);
  let below = -Infinity;
  return [
    label(x + 16, y + 14, title, { 'font-weight': 'bold' }),
    ...ticks.flatMap((ms) => [
      line(from, placeY(ms), to, placeY(ms), { stroke: colour.band }),
      label(from - 8, placeY(ms) + 4, ms < 1000 ? `${ms} ms` : `${ms / 1000} s`, {
        'text-anchor': 'end',
        'font-size': smallSize,
      }),
    ]),
    ...shares.map((share, at) =>
      label(placeX(at), floor + 18, `${share * 100} %`, { 'text-anchor': 'middle', 'font-size': smallSize }),
    ),
    ...lines.map(({ name, times }) => {
      const isNamed = slowest.some((one) => one.name === name);
      return element('polyline', {
        points: times.map((ms, at) => `${placeX(at).toFixed(1)},${placeY(ms).toFixed(1)}`).join(' '),
        fill: 'none',
        stroke: isNamed ? colour.strong : colour.faint,
        'stroke-width': isNamed ? 2 : 1,
      });
    }),
    ...slowest.map(({ name, times }) => {
      const ms = times.at(-1) ?? NaN;
      below = Math.max(below + 13, placeY(ms) + 4);
      const words = name.length > 17 ? `${name.slice(0, 16)}…` : name;
      return label(to + 8, below, `${words} ${ms < 100 ? ms.toFixed(1) : ms.toFixed(0)}`, {
        'font-size': smallSize,
      });
    }),
  ];
}

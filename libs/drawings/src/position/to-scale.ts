import { group, label, line } from '../svg.js';
import { colour, smallSize } from '../style.js';

/** From the bottom bracket, or another origin the drawing names: `x` forward, `y` up. */
export interface PointMm {
  readonly xMm: number;
  readonly yMm: number;
}

/** A place on the paper. */
export interface Place {
  readonly x: number;
  readonly y: number;
}

export interface ToScale {
  readonly pxPerMm: number;
  readonly at: (point: PointMm) => Place;
}

/** Puts the points into a box of the paper, as large as they fit, in the same scale both ways and in its middle. */
export function toScale(
  points: readonly PointMm[],
  box: { left: number; top: number; right: number; bottom: number },
): ToScale {
  const xs = points.map(({ xMm }) => xMm);
  const ys = points.map(({ yMm }) => yMm);
  const [left, right] = [Math.min(...xs), Math.max(...xs)];
  const [low, high] = [Math.min(...ys), Math.max(...ys)];
  const pxPerMm = Math.min((box.right - box.left) / (right - left), (box.bottom - box.top) / (high - low));
  const fromLeft = (box.left + box.right - pxPerMm * (left + right)) / 2;
  const fromTop = (box.top + box.bottom + pxPerMm * (low + high)) / 2;
  return {
    pxPerMm,
    at: ({ xMm, yMm }) => ({ x: fromLeft + pxPerMm * xMm, y: fromTop - pxPerMm * yMm }),
  };
}

/** A length to measure by. */
export function scaleBar(x: number, y: number, lengthMm: number, pxPerMm: number): string {
  const end = x + lengthMm * pxPerMm;
  const black = { stroke: colour.ink, 'stroke-width': 1.5 };
  return group(
    { 'data-scale-mm': lengthMm },
    line(x, y, end, y, black),
    line(x, y - 4, x, y + 4, black),
    line(end, y - 4, end, y + 4, black),
    label(end + 8, y + 4, `${lengthMm} mm`, { 'font-size': smallSize }),
  );
}

export const polyline = (places: readonly Place[]): string =>
  places.map(({ x, y }) => `${rounded(x)},${rounded(y)}`).join(' ');

export const rounded = (value: number): number => Math.round(value * 100) / 100;

/** A smooth closed line through the places (Catmull-Rom, as cubic Béziers). */
export function smoothClosed(places: readonly Place[]): string {
  const at = (i: number): Place => places.at(i % places.length) as Place;
  const spell = ({ x, y }: Place): string => `${rounded(x)} ${rounded(y)}`;
  const curves = places.map((from, i) => {
    const [before, to, after] = [at(i - 1), at(i + 1), at(i + 2)];
    const one = { x: from.x + (to.x - before.x) / 6, y: from.y + (to.y - before.y) / 6 };
    const other = { x: to.x - (after.x - from.x) / 6, y: to.y - (after.y - from.y) / 6 };
    return `C ${spell(one)}, ${spell(other)}, ${spell(to)}`;
  });
  return `M ${spell(at(0))} ${curves.join(' ')} Z`;
}

/** Moves places apart that are nearer than `gap`, as little as it takes, keeping their order. */
export function spread(places: readonly number[], gap: number): number[] {
  const order = places
    .map((place, index) => ({ place, index }))
    .sort((one, other) => one.place - other.place);
  // Neighbours that touch stand as one block about the middle of where its members belong.
  const blocks: { members: typeof order; middle: number }[] = [];
  const size = ({ members }: { members: typeof order }): number => (members.length - 1) * gap;
  for (const item of order) {
    let block = { members: [item], middle: item.place };
    for (;;) {
      const last = blocks.at(-1);
      if (!last || block.middle - size(block) / 2 - (last.middle + size(last) / 2) >= gap) break;
      blocks.pop();
      const members = [...last.members, ...block.members];
      block = { members, middle: members.reduce((sum, { place }) => sum + place, 0) / members.length };
    }
    blocks.push(block);
  }
  const spreadOut = [...places];
  for (const block of blocks) {
    block.members.forEach(({ index }, i) => {
      spreadOut[index] = block.middle - size(block) / 2 + i * gap;
    });
  }
  return spreadOut;
}

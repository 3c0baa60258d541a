import type { Scale } from './scale.js';
import { label, line } from './svg.js';
import { colour, smallSize } from './style.js';

/** `−3`, `0.5`: a true minus, no trailing zeros. */
export const number = (value: number, digits = 1): string =>
  String(Number(value.toFixed(digits))).replace('-', '−');

/** The same with its sign: `+2`. */
export const signed = (value: number, digits = 1): string =>
  `${Number(value.toFixed(digits)) > 0 ? '+' : ''}${number(value, digits)}`;

/** Ticks and their numbers under a drawing, with what they mean. */
export function axisBelow(
  scale: Scale,
  y: number,
  options: { name: string; spell?: (value: number) => string },
): string[] {
  const { name, spell = number } = options;
  const [left, right] = [scale.at(scale.low), scale.at(scale.high)];
  return [
    line(left, y, right, y, { stroke: colour.middle }),
    ...scale.ticks.flatMap((tick) => [
      line(scale.at(tick), y, scale.at(tick), y + 4, { stroke: colour.middle }),
      label(scale.at(tick), y + 17, spell(tick), { 'text-anchor': 'middle', 'font-size': smallSize }),
    ]),
    label((left + right) / 2, y + 35, name, { 'text-anchor': 'middle', 'font-size': smallSize }),
  ];
}

/** Ticks and their numbers beside a drawing; the name stands above them. */
export function axisLeft(
  scale: Scale,
  x: number,
  options: { name: string; gridTo?: number; spell?: (value: number) => string },
): string[] {
  const { name, gridTo, spell = number } = options;
  return [
    ...scale.ticks.flatMap((tick) => [
      ...(gridTo === undefined
        ? []
        : [line(x, scale.at(tick), gridTo, scale.at(tick), { stroke: colour.band })]),
      label(x - 8, scale.at(tick) + 4, spell(tick), { 'text-anchor': 'end', 'font-size': smallSize }),
    ]),
    label(x - 30, scale.at(scale.high) - 12, name, { 'font-size': smallSize }),
  ];
}

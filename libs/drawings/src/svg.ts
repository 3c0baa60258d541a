/** What an attribute may be; one that is undefined is left out. */
export type Attributes = Readonly<Record<string, string | number | undefined>>;

export const escaped = (text: string): string =>
  text.replace(/[&<>"']/g, (character) => `&#${character.charCodeAt(0)};`);

/** Hundredths of a unit are finer than any print. */
const spelled = (value: string | number): string =>
  typeof value === 'number' ? String(Math.round(value * 100) / 100) : escaped(value);

/**
 * One SVG element. Children are SVG already; text goes through `escaped` first.
 *
 * @example element('line', { x1: 0, y1: 0, x2: 10, y2: 0 });
 */
export function element(name: string, attributes: Attributes, ...children: readonly string[]): string {
  const written = Object.entries(attributes)
    .filter((entry): entry is [string, string | number] => entry[1] !== undefined)
    .map(([key, value]) => ` ${key}="${spelled(value)}"`)
    .join('');
  return children.length === 0 ? `<${name}${written}/>` : `<${name}${written}>${children.join('')}</${name}>`;
}

export const group = (attributes: Attributes, ...children: readonly string[]): string =>
  element('g', attributes, ...children);

export const line = (x1: number, y1: number, x2: number, y2: number, attributes: Attributes = {}): string =>
  element('line', { x1, y1, x2, y2, ...attributes });

export const label = (x: number, y: number, words: string, attributes: Attributes = {}): string =>
  element('text', { x, y, ...attributes }, escaped(words));

/** Octets of a line, its break not counted (RFC 5545, 3.1). */
const longest = 75;

/**
 * A content line, folded: after at most 75 octets comes a line break and a space, never within a character.
 *
 * @param parameters values are quoted and escaped where they must be (RFC 5545, 3.2; RFC 6868)
 * @param value as it stands in the line; text goes through `text` first
 * @returns with its CRLF
 */
export function contentLine(
  name: string,
  value: string,
  parameters: Readonly<Record<string, string>> = {},
): string {
  const head = Object.entries(parameters).map(([key, one]) => `;${key}=${parameterValue(one)}`);
  return `${fold(`${name}${head.join('')}:${value}`)}\r\n`;
}

function fold(line: string): string {
  let folded = '';
  let octets = 0;
  for (const character of line) {
    const size = Buffer.byteLength(character);
    if (octets + size > longest) {
      folded += '\r\n ';
      octets = 1;
    }
    folded += character;
    octets += size;
  }
  return folded;
}

/** No control character may stand in a line but the tab (RFC 5545, 3.1). */
// oxlint-disable-next-line no-control-regex
const control = /[\u0000-\u0008\u000b-\u001f\u007f]/g;

/** A TEXT value: backslash, semicolon, comma and line break escaped (RFC 5545, 3.3.11). */
export const text = (value: string): string =>
  value
    .replaceAll(/[\\;,]/g, (character) => `\\${character}`)
    .replaceAll(/\r\n|\r|\n/g, '\\n')
    .replaceAll(control, ' ');

function parameterValue(value: string): string {
  const encoded = value
    .replaceAll('^', '^^')
    .replaceAll(/\r\n|\r|\n/g, '^n')
    .replaceAll('"', "^'")
    .replaceAll(control, ' ');
  return /[:;,]/.test(encoded) ? `"${encoded}"` : encoded;
}

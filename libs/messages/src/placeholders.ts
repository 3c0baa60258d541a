const placeholder = /\{\{(?<name>[a-zA-Z]+)\}\}/g;

/** The names of the placeholders in a text, each once. */
export function placeholdersIn(text: string): string[] {
  return [...new Set([...text.matchAll(placeholder)].map((found) => found.groups?.['name'] ?? ''))];
}

export const withoutPlaceholders = (text: string): string => text.replaceAll(placeholder, '');

/** Puts the values in. A placeholder without a value leaves nothing, and its line with it if nothing else is there. */
export function fill(text: string, values: Readonly<Record<string, string>>): string {
  return text
    .split('\n')
    .map((line) => ({
      filled: line.replaceAll(placeholder, (_, name: string) => values[name] ?? ''),
      hadText: line.trim() !== '',
    }))
    .filter(({ filled, hadText }) => !hadText || filled.trim() !== '')
    .map(({ filled }) => filled)
    .join('\n')
    .replaceAll(/\n{3,}/g, '\n\n')
    .trim();
}

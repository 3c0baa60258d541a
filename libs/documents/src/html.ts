/** Markup that is safe to send: written by us, with everything that came from elsewhere escaped. */
export class Html {
  constructor(readonly text: string) {}
}

export type Value = Html | string | number | null | false | readonly Value[];

/**
 * HTML with values put in: text is escaped, for element content and for quoted attributes alike; `null` and `false`
 * leave nothing.
 *
 * @example html`<p title="${'"'}">${'<b>'}</p>`.text // <p title="&quot;">&lt;b&gt;</p>
 */
export function html(strings: TemplateStringsArray, ...values: readonly Value[]): Html {
  return new Html(strings.reduce((text, part, at) => text + textOf(values[at - 1] ?? null) + part));
}

function textOf(value: Value): string {
  if (value === null || value === false) return '';
  if (value instanceof Html) return value.text;
  if (typeof value === 'string' || typeof value === 'number') return escapeHtml(String(value));
  return value.map(textOf).join('');
}

const escaped: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Text for element content or a quoted attribute. */
export const escapeHtml = (text: string): string =>
  text.replace(/[&<>"']/g, (character) => escaped[character] ?? '');

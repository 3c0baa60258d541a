import { placeholdersOf } from './catalogue.js';
import { placeholdersIn, withoutPlaceholders } from './placeholders.js';
import type { MessageTemplate, MessageText } from './template.js';

export interface TextProblem {
  readonly field: 'subject' | 'body';
  readonly message: string;
}

/** Control characters other than the line break, and the two breaks of Unicode, which some programs obey. */
// oxlint-disable-next-line no-control-regex
const control = /[\u0000-\u0009\u000b-\u001f\u007f\u0085\u2028\u2029]/;

/**
 * What keeps a text from being used for the template: unknown placeholders, missing ones the message is useless
 * without, braces that belong to no placeholder, a subject of several lines.
 */
export function checkText(template: MessageTemplate, text: MessageText): TextProblem[] {
  const known = placeholdersOf(template);
  const problems: TextProblem[] = [];
  for (const field of ['subject', 'body'] as const) {
    const say = (message: string): number => problems.push({ field, message });
    if (text[field].trim() === '') say('must not be empty');
    if (control.test(text[field])) say('must not contain control characters');
    for (const name of placeholdersIn(text[field])) {
      if (!Object.hasOwn(known, name))
        say(`knows no {{${name}}}; possible: ${Object.keys(known).join(', ')}`);
      else if (field === 'subject' && known[name]?.kind === 'link') say(`must not hold a link: {{${name}}}`);
    }
    if (/\{\{|\}\}/.test(withoutPlaceholders(text[field]))) say('has braces that enclose no placeholder');
  }
  if (text.subject.includes('\n')) problems.push({ field: 'subject', message: 'must be one line' });
  const used = new Set([...placeholdersIn(text.subject), ...placeholdersIn(text.body)]);
  for (const [name, { required }] of Object.entries(known)) {
    if (required && !used.has(name)) problems.push({ field: 'body', message: `must hold {{${name}}}` });
  }
  return problems;
}

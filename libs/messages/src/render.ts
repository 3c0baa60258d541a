import { placeholdersOf } from './catalogue.js';
import type { ChosenText } from './choose-text.js';
import { htmlBody } from './html-body.js';
import { valueInWords } from './in-words.js';
import { fill } from './placeholders.js';
import type { Language, MessageTemplate } from './template.js';

export interface RenderedMessage {
  readonly subject: string;
  readonly text: string;
  readonly html: string;
  /** The text as it may be kept: with `[link]` for every address, which may hold a secret. */
  readonly kept: string;
}

const unsubscribeLine: Readonly<Record<Language, string>> = {
  en: 'If you would like no more mails from us, stop them here:',
  de: 'Wenn Sie keine Mails mehr von uns möchten, können Sie sie hier abbestellen:',
};

/** A value must not break out of its line: a header would end there, and another begin (RFC 5322, 2.2). */
// oxlint-disable-next-line no-control-regex
const oneLine = (value: string): string => value.replaceAll(/[\u0000-\u001f\u007f\u0085\u2028\u2029]+/g, ' ');

/**
 * The message in the words of the chosen text.
 *
 * @param values by placeholder: text, an instant (RFC 3339), a day, an address
 * @param unsubscribeUrl put at the end of a message that can be unsubscribed from
 */
export function render(
  template: MessageTemplate,
  chosen: ChosenText,
  options: {
    values: Readonly<Record<string, string>>;
    timeZone: string;
    unsubscribeUrl?: string | undefined;
  },
): RenderedMessage {
  const { language } = chosen;
  const kinds = placeholdersOf(template);
  const known = Object.entries(options.values).flatMap(([name, value]) => {
    const kind = kinds[name]?.kind;
    return kind === undefined
      ? []
      : [{ name, kind, value: oneLine(valueInWords(kind, value, { language, timeZone: options.timeZone })) }];
  });
  const values = Object.fromEntries(known.map(({ name, value }) => [name, value]));
  const kept = Object.fromEntries(
    known.map(({ name, kind, value }) => [name, kind === 'link' ? '[link]' : value]),
  );

  const subject = oneLine(fill(chosen.subject, values));
  const { unsubscribeUrl } = options;
  const footer = unsubscribeUrl === undefined ? '' : `\n\n${unsubscribeLine[language]}\n${unsubscribeUrl}`;
  const text = `${fill(chosen.body, values)}${footer}\n`;
  return {
    subject,
    text,
    html: htmlBody(text.trimEnd(), { language, title: subject }),
    kept: fill(chosen.body, kept),
  };
}

/** A message with the samples of its placeholders. */
export function preview(template: MessageTemplate, chosen: ChosenText, timeZone: string): RenderedMessage {
  const samples = Object.entries(placeholdersOf(template)).map(([name, { sample }]) => [name, sample]);
  const values = Object.fromEntries(samples) as Record<string, string>;
  const unsubscribeUrl = template.unasked ? 'https://fitting.example/unsubscribe/0199' : undefined;
  return render(template, chosen, { values, timeZone, unsubscribeUrl });
}

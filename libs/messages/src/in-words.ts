import type { Language, PlaceholderKind } from './template.js';

const locales: Readonly<Record<Language, string>> = { en: 'en-GB', de: 'de-DE' };

/**
 * An instant as people say it, by the clock of a place.
 *
 * @example instantInWords('2026-03-02T09:00:00Z', { language: 'en', timeZone: 'Europe/Copenhagen' })
 * // Monday, 2 March 2026 at 10:00
 */
export function instantInWords(
  instant: string,
  { language, timeZone }: { language: Language; timeZone: string },
): string {
  const day = new Intl.DateTimeFormat(locales[language], { timeZone, dateStyle: 'full' });
  const time = new Intl.DateTimeFormat(locales[language], { timeZone, timeStyle: 'short' });
  const date = new Date(instant);
  const between = language === 'de' ? ', ' : ' at ';
  return `${day.format(date)}${between}${time.format(date)}${language === 'de' ? ' Uhr' : ''}`;
}

/** A calendar day as people say it. */
export function dayInWords(day: string, language: Language): string {
  const format = new Intl.DateTimeFormat(locales[language], { timeZone: 'UTC', dateStyle: 'full' });
  return format.format(new Date(`${day}T00:00:00Z`));
}

export function valueInWords(
  kind: PlaceholderKind,
  value: string,
  place: { language: Language; timeZone: string },
): string {
  switch (kind) {
    case 'instant':
      return instantInWords(value, place);
    case 'day':
      return dayInWords(value, place.language);
    case 'text':
    case 'link':
      return value;
  }
}

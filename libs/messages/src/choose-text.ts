import { languages, type Language, type MessageTemplate, type MessageText } from './template.js';

/** A studio's own wording of a template in one language, in its newest version. */
export interface OwnText extends MessageText {
  readonly language: Language;
  readonly version: number;
}

export interface ChosenText extends MessageText {
  readonly language: Language;
  /** `studio-3` for the third version of the studio's own, `standard-1` for ours. */
  readonly textVersion: string;
}

const isLanguage = (tag: string): tag is Language => (languages as readonly string[]).includes(tag);

/**
 * The languages to try, best first: the client's, without its region (RFC 4647, 3.4 "Lookup"), the studio's, English.
 *
 * @param tag BCP 47, such as `de-AT`; null when the client named none
 */
export function languageFor(tag: string | null, ofStudio: Language): Language {
  for (let range = tag?.toLowerCase() ?? ''; range !== ''; range = range.replace(/(^|-)[^-]*$/, '')) {
    if (isLanguage(range)) return range;
  }
  return ofStudio;
}

/** The studio's own text in that language where it has one, else the standard one. */
export function chooseText(
  template: MessageTemplate,
  language: Language,
  own: readonly OwnText[],
): ChosenText {
  const ofStudio = own.find((text) => text.language === language);
  if (ofStudio) {
    const { subject, body, version } = ofStudio;
    return { subject, body, language, textVersion: `studio-${version}` };
  }
  return { ...template.texts[language], language, textVersion: `standard-${template.version}` };
}

import type { MessageTemplateName } from '@studio/job-contracts';

export const languages = ['en', 'de'] as const;
/** A language the standard texts are written in (BCP 47). */
export type Language = (typeof languages)[number];

/** What a studio or we wrote; `{{givenName}}` stands for a value. */
export interface MessageText {
  /** One line. */
  readonly subject: string;
  /** Paragraphs of plain text, an empty line between two; a line that is a link alone becomes one in HTML. */
  readonly body: string;
}

/**
 * `instant` is told by the clock of the place and `day` as a calendar day, both in the client's language; `link` is an
 * address, left out of what is kept of a message because it may hold a secret.
 */
export type PlaceholderKind = 'text' | 'instant' | 'day' | 'link';

export interface Placeholder {
  readonly kind: PlaceholderKind;
  readonly meaning: string;
  /** What a preview shows: text, an instant (RFC 3339), a day or an address. */
  readonly sample: string;
  /** Without it the message would be useless, so a text that leaves it out is refused. */
  readonly required?: true;
}

export interface MessageTemplate {
  readonly name: MessageTemplateName;
  /** One line, for whoever edits its text. */
  readonly purpose: string;
  readonly to: 'client' | 'staff';
  /** What `subjectId` of its order names: a record that is read anew when the message goes out. */
  readonly about:
    | 'appointment'
    | 'intake_link'
    | 'follow_up'
    | 'fit_sheet'
    | 'shoe_work'
    | 'person_export'
    | null;
  /** Time sets it off and nobody waits for it at the screen: it keeps the quiet hours, and can be unsubscribed from. */
  readonly unasked: boolean;
  /** Worth a call by the desk where the client has no mail address that works. */
  readonly byPhone: boolean;
  /** Raised when a standard text changes. */
  readonly version: number;
  readonly placeholders: Readonly<Record<string, Placeholder>>;
  readonly texts: Readonly<Record<Language, MessageText>>;
}

/** Every message to a client may use them. */
export const commonPlaceholders = {
  givenName: { kind: 'text', meaning: 'Given name of the client', sample: 'Robin' },
  familyName: { kind: 'text', meaning: 'Family name of the client', sample: 'Rider' },
  studioName: { kind: 'text', meaning: 'Name of the studio as it sends', sample: 'Harbour Fitting' },
} as const satisfies Record<string, Placeholder>;

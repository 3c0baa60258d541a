import type { AskedQuestion } from '@studio/clinical-flags';

interface OfStudio {
  readonly studio: string;
}

export interface ShownField {
  readonly question: AskedQuestion;
  readonly answer: unknown;
  readonly error: string | null;
}

/** What a page says, before it is markup. Addresses are relative to the link's own. */
export type Shown = OfStudio &
  (
    | {
        readonly page: 'start';
        readonly title: string;
        /** What it is about, in a sentence. */
        readonly about: string;
        readonly needsConsent: boolean;
        readonly begun: boolean;
        readonly openUntil: string;
        readonly error: string | null;
      }
    | {
        readonly page: 'questions';
        readonly title: string;
        readonly id: string;
        readonly heading: string;
        readonly intro: string | null;
        readonly part: number;
        readonly parts: number;
        readonly fields: readonly ShownField[];
        readonly back: string | null;
        /** Only what the answers to this page made relevant, or left open. */
        readonly isMore: boolean;
        /** Reached from the review: shows every question of the page, and leads back there. */
        readonly isChange: boolean;
      }
    | {
        readonly page: 'urgent';
        readonly isEmergency: boolean;
        readonly advice: readonly string[];
        readonly back: string;
        readonly next: string;
      }
    | {
        readonly page: 'review';
        readonly title: string;
        readonly sections: readonly {
          /** Where it is changed. */
          readonly change: string;
          readonly heading: string;
          readonly rows: readonly { readonly question: string; readonly answer: string }[];
        }[];
      }
    | {
        readonly page: 'done';
        readonly isUrgent: boolean;
        readonly advice: readonly string[];
        readonly whatNext: string;
        readonly caution: string;
      }
  );

/** A page, or where to go instead. */
export type Outcome = Shown | { readonly goTo: string };

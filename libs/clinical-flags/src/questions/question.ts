import type { Condition } from '../condition.js';
import type { BodySite } from './body-sites.js';

export interface Option {
  readonly id: string;
  readonly label: string;
}

interface Asked {
  /** The fact it settles; of a context question a name of its own. */
  readonly id: string;
  /** The question as the client reads it. */
  readonly text: string;
  readonly help?: string;
  /** Only asked when this holds by the answers before it; "don't know" counts as yes. */
  readonly onlyWhen?: Condition;
  /** Asked anew for each body site named in `complaint_sites`; answered under `id@site`. */
  readonly perSite?: true;
  /** Kept for the fitter and read by no rule. Every other question is one of health, and takes "don't know". */
  readonly context?: true;
  /** What is told at once to who answers so. It is about the bike, so no rule of health reads it. */
  readonly warns?: { readonly on: 'yes' | 'no'; readonly advice: string };
  /** Whose the scale is, and that it may be used. */
  readonly licence?: string;
}

export type YesNoQuestion = Asked & { readonly kind: 'yes_no' };
/** Answered by a number from `min` to `max`, both allowed; by a whole one unless `decimals`. */
export type NumberQuestion = Asked & {
  readonly kind: 'number';
  readonly min: number;
  readonly max: number;
  readonly unit: string;
  readonly decimals?: true;
};
export type OneOfQuestion = Asked & { readonly kind: 'one_of'; readonly options: readonly Option[] };
/** Answered by a list of option ids; the empty list says "none of these". */
export type SeveralOfQuestion = Asked & { readonly kind: 'several_of'; readonly options: readonly Option[] };
/** Answered by a list of site ids; the empty list says "nowhere". */
export type BodySitesQuestion = Asked & { readonly kind: 'body_sites'; readonly sites: readonly BodySite[] };
/** Answered by a calendar day, `YYYY-MM-DD`. */
export type DateQuestion = Asked & { readonly kind: 'date' };
export type TextQuestion = Asked & { readonly kind: 'text'; readonly maxLength: number };

export type Question =
  | YesNoQuestion
  | NumberQuestion
  | OneOfQuestion
  | SeveralOfQuestion
  | BodySitesQuestion
  | DateQuestion
  | TextQuestion;

export const questionKinds = [
  'yes_no',
  'number',
  'one_of',
  'several_of',
  'body_sites',
  'date',
  'text',
] as const satisfies readonly Question['kind'][];
export type QuestionKind = (typeof questionKinds)[number];

/** Whether "don't know" (`unknown`) is an answer: always when it is about health. */
export const takesDontKnow = (question: Question): boolean => question.context !== true;

/** One answer as it is handed in and kept. */
export type Answer = string | number | readonly string[];
export type Answers = Readonly<Record<string, unknown>>;

export const answers = ['yes', 'no', 'unknown'] as const;

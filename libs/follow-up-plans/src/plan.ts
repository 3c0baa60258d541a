/** So long after the day it counts from, by the calendar; months keep the day, or take the month's last. */
export type Offset = { readonly days: number } | { readonly weeks: number } | { readonly months: number };

/** Hours of the studio's own clock within which a client is written to, `HH:MM`. */
export interface TimeWindow {
  readonly from: string;
  readonly until: string;
}

export const channels = ['mail', 'phone'] as const;
/** `mail`: a one-time link to the questions; `phone`: somebody of the studio is told to call. */
export type Channel = (typeof channels)[number];

export const unansweredActions = ['remind', 'phone', 'close'] as const;
export type UnansweredAction = (typeof unansweredActions)[number];

/** What is done when no answer came, so many days after the client was asked. */
export interface Unanswered {
  readonly afterDays: number;
  readonly action: UnansweredAction;
}

export const toldRoles = ['front_desk', 'fitter', 'owner'] as const;
export type ToldRole = (typeof toldRoles)[number];

export interface PlanStep {
  /** Unique within its plan, and the same in every plan that asks at that time. */
  readonly id: string;
  readonly after: Offset;
  readonly window: TimeWindow;
  readonly channel: Channel;
  readonly questionSet: { readonly id: string; readonly version: string };
  /** In order of time; the last is `close`. */
  readonly unanswered: readonly Unanswered[];
  /** Who is told to phone. */
  readonly tell: ToldRole;
  /** False for an early look that asks whether all is well: it says nothing yet of how the change turned out. */
  readonly countsAsOutcome: boolean;
}

/** When whom to ask what after a change. A published version never changes. */
export interface FollowUpPlan {
  readonly id: string;
  readonly version: number;
  readonly name: string;
  readonly steps: readonly PlanStep[];
}

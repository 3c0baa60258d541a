import { alertStudio } from './alert-studio.js';
import { sendFollowUp } from './send-follow-up.js';
import { sendIntakeLink } from './send-intake-link.js';
import { sendPasswordLink } from './send-password-link.js';
import { summariseOutcome } from './summarise-outcome.js';

/**
 * Every job there is. A job is an order; its payload holds ids and a version, never a name, an answer or a
 * measurement, because Redis keeps it in clear text.
 */
export const jobs = {
  [alertStudio.name]: alertStudio,
  [sendFollowUp.name]: sendFollowUp,
  [sendIntakeLink.name]: sendIntakeLink,
  [sendPasswordLink.name]: sendPasswordLink,
  [summariseOutcome.name]: summariseOutcome,
} as const;

type Jobs = typeof jobs;
export type JobName = keyof Jobs;
export type JobPayload<Name extends JobName> = NonNullable<Jobs[Name]['payload']>;

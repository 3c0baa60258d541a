import type { JobOfStudio } from '@studio/job-contracts';

/** Orders a job for every studio at each of its turns. A turn is skipped while the job of the one before is undone. */
export interface Schedule {
  readonly name: string;
  readonly job: JobOfStudio;
  /**
   * Every so many minutes, counted from midnight UTC; or once a day, from this hour of the studio's own clock. Turns
   * missed while no worker ran are made up for by one.
   */
  readonly turns: { readonly everyMinutes: number } | { readonly dailyFromHour: number };
}

/** Every repeating job there is. */
export const schedules: readonly Schedule[] = [
  { name: 'offer-freed-times', job: 'offer-freed-times', turns: { everyMinutes: 5 } },
  { name: 'open-due-tasks', job: 'open-due-tasks', turns: { everyMinutes: 5 } },
  { name: 'seal-audit', job: 'seal-audit', turns: { everyMinutes: 60 } },
  { name: 'end-retention', job: 'end-retention', turns: { dailyFromHour: 4 } },
  { name: 'forget-idempotency-keys', job: 'forget-idempotency-keys', turns: { dailyFromHour: 3 } },
  { name: 'tidy-outbox', job: 'tidy-outbox', turns: { dailyFromHour: 3 } },
];

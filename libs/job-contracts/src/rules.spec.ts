import { describe, expect, it } from '@jest/globals';
import { queues } from './queues.js';
import { rulesOf, waitBeforeRetryMs } from './rules.js';

describe('the rules of a job', () => {
  it('are its queue’s', () => {
    expect(rulesOf('summarise-outcome')).toEqual({ ...queues.summaries, queue: 'summaries' });
  });

  it('are its own where it has some', () => {
    expect(rulesOf('alert-studio')).toEqual({ ...queues.mail, queue: 'mail', backoffMs: 1_000 });
  });

  it.each(Object.entries(queues))(
    '%s lets one studio keep every place busy, and no more than it can',
    (_, rules) => {
      expect(rules.share).toBeGreaterThanOrEqual(rules.concurrency);
    },
  );
});

describe('the wait before a retry', () => {
  const rules = { backoffMs: 2_000 };

  it.each([
    [1, 1_000, 2_000],
    [2, 2_000, 4_000],
    [5, 16_000, 32_000],
    [11, 1_024_000, 2_048_000],
    // Past an hour it stays there.
    [12, 1_800_000, 3_600_000],
    [24, 1_800_000, 3_600_000],
  ])('after %s failed tries is between %s and %s ms', (failed, least, most) => {
    expect(waitBeforeRetryMs(rules, failed, 0)).toBe(least);
    expect(waitBeforeRetryMs(rules, failed, 1)).toBe(most);
  });
});

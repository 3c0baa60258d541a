import { describe, expect, it } from '@jest/globals';
import { builtInPlans, largeCleatChange, planByCleatChange, smallChange } from './built-in-plans.js';
import { checkSteps } from './check-plan.js';
import { planChanges, type Promised } from './plan-changes.js';
import type { PlanStep } from './plan.js';
import { following, followUpStates, nextAction, type FollowUpState } from './states.js';

const [week2, week6] = smallChange.steps as [PlanStep, PlanStep];
const day = (at: string): Date => new Date(`${at}T07:00:00Z`);

describe('the built-in plans', () => {
  it.each(builtInPlans.map((plan) => [plan.id, plan] as const))('%s can be followed', (_, { steps }) => {
    expect(checkSteps(steps)).toEqual([]);
  });

  it('follow a large cleat change on day 3, in weeks 2 and 6 and in month 6', () => {
    expect(largeCleatChange.steps.map(({ after }) => after)).toEqual([
      { days: 3 },
      { weeks: 2 },
      { weeks: 6 },
      { months: 6 },
    ]);
  });

  it.each([
    [[], 'small-change'],
    [[0, 9.9], 'small-change'],
    [[2, 10], 'large-cleat-change'],
    [[-12, 0], 'large-cleat-change'],
  ])('cleats moved by %j mm are followed by %s', (mm, plan) => {
    expect(planByCleatChange(mm).id).toBe(plan);
  });
});

describe('checkSteps', () => {
  it.each<[string, Partial<PlanStep>[], string]>([
    ['two steps of one name', [week2, week2], 'steps.1.id'],
    [
      'a window that closes before it opens',
      [{ window: { from: '19:00', until: '09:00' } }],
      'steps.0.window',
    ],
    ['no end', [{ unanswered: [{ afterDays: 4, action: 'remind' }] }], 'steps.0.unanswered'],
    [
      'a reminder after the call',
      [
        {
          unanswered: [
            { afterDays: 4, action: 'phone' },
            { afterDays: 6, action: 'remind' },
            { afterDays: 9, action: 'close' },
          ],
        },
      ],
      'steps.0.unanswered',
    ],
    [
      'a call before the reminder is due',
      [
        {
          unanswered: [
            { afterDays: 4, action: 'remind' },
            { afterDays: 4, action: 'close' },
          ],
        },
      ],
      'steps.0.unanswered',
    ],
  ])('names %s', (_, steps, field) => {
    expect(checkSteps(steps.map((step) => ({ ...week2, ...step }))).map((problem) => problem.field)).toEqual([
      field,
    ]);
  });
});

describe('nextAction', () => {
  const asked = { dueAt: day('2026-03-20'), askedAt: new Date('2026-03-27T15:00:00Z') };
  const next = (state: FollowUpState, step = week2) => {
    const found = nextAction({ ...asked, state }, step, 'Europe/Copenhagen');
    return found && [found.action, found.at.toISOString()];
  };

  it('asks, reminds once, has somebody phone, and closes, each as the window opens', () => {
    expect(next('scheduled')).toEqual(['ask', '2026-03-20T07:00:00.000Z']);
    // The clocks have gone forward by then.
    expect(next('sent')).toEqual(['remind', '2026-03-31T07:00:00.000Z']);
    expect(next('reminded')).toEqual(['phone', '2026-04-05T07:00:00.000Z']);
    expect(next('phoned')).toEqual(['close', '2026-04-17T07:00:00.000Z']);
  });

  it.each(['answered', 'unanswered', 'cancelled', 'skipped'] as const)(
    'does nothing more when %s',
    (state) => {
      expect(next(state)).toBeNull();
    },
  );

  it('goes on after what a plan leaves out', () => {
    const step: PlanStep = { ...week2, unanswered: [{ afterDays: 9, action: 'close' }] };
    expect(next('sent', step)?.[0]).toBe('close');
    expect(next('phoned', step)?.[0]).toBe('close');
    const noCall: PlanStep = {
      ...week2,
      unanswered: [{ afterDays: 4, action: 'remind' }, ...step.unanswered],
    };
    expect(next('phoned', noCall)?.[0]).toBe('close');
  });

  it('leads every state that waits to an end that may follow', () => {
    for (const state of followUpStates) {
      const action = next(state)?.[0];
      const to = { ask: 'sent', remind: 'reminded', phone: 'phoned', close: 'unanswered' } as const;
      if (action) expect(following[state]).toContain(to[action as keyof typeof to]);
    }
  });
});

describe('planChanges', () => {
  const due = new Map([
    ['day-3', day('2026-03-05')],
    ['week-2', day('2026-03-16')],
    ['week-6', day('2026-04-13')],
    ['month-6', day('2026-09-02')],
  ]);
  const options = { dueAt: ({ id }: PlanStep) => due.get(id) as Date, now: day('2026-03-10') };
  const promised = (stepId: string, more: Partial<Promised> = {}): Promised => ({
    ...{ id: `row ${stepId}`, stepId, state: 'scheduled', dueAt: due.get(stepId) as Date, byHand: false },
    ...more,
  });
  const told = (rows: Promised[], plan = largeCleatChange) => {
    const { insert, keep, skip } = planChanges(rows, plan, options);
    return {
      insert: insert.map(({ step }) => step.id),
      moved: keep.filter(({ moves }) => moves).map(({ id }) => id),
      skip,
    };
  };

  it('adds what is to come and lacks, but not what is over', () => {
    expect(told([promised('week-2'), promised('week-6')])).toEqual({
      insert: ['month-6'],
      moved: [],
      skip: [],
    });
  });

  it('skips what the plan does not ask', () => {
    const rows = largeCleatChange.steps.map(({ id }) => promised(id));
    expect(told(rows, smallChange).skip).toEqual(['row day-3', 'row month-6']);
  });

  it('moves what is due at another time', () => {
    expect(told([promised('week-2', { dueAt: day('2026-03-17') }), promised('week-6')], smallChange)).toEqual(
      {
        ...{ insert: [], moved: ['row week-2'], skip: [] },
      },
    );
  });

  it('leaves alone what was asked or changed by hand', () => {
    const rows = [
      promised('week-2', { dueAt: day('2026-03-17'), byHand: true }),
      promised('week-6', { dueAt: day('2026-03-17'), state: 'answered' }),
      promised('month-6', { state: 'skipped', byHand: true }),
      promised('elsewhere', { stepId: 'elsewhere', byHand: true }),
    ];
    expect(told(rows)).toEqual({ insert: [], moved: [], skip: [] });
  });

  it('changes nothing when done twice', () => {
    const rows = [...smallChange.steps].map(({ id }) => promised(id));
    expect(told(rows, smallChange)).toEqual({ insert: [], moved: [], skip: [] });
    expect(week6.id).toBe('week-6');
  });
});

import { describe, expect, it } from '@jest/globals';
import { routes } from '@studio/clinical-flags';
import { deadlineOf, isUrgent, needsClinician } from './deadlines.js';

describe('deadlineOf', () => {
  const timeZone = 'Europe/Copenhagen';

  it.each([
    // Clocks go forward on 2026-03-29 and back on 2026-10-25 in Copenhagen (EU directive 2000/84/EC).
    ['emergency_now', '2026-03-02T13:00:00Z', '2026-03-02T13:00:00.000Z'],
    ['same_day_medical', '2026-03-02T13:00:00Z', '2026-03-02T23:00:00.000Z'],
    ['same_day_medical', '2026-03-02T23:30:00Z', '2026-03-03T23:00:00.000Z'],
    ['same_day_medical', '2026-03-29T09:00:00Z', '2026-03-29T22:00:00.000Z'],
    ['gp_within_days', '2026-10-23T09:00:00Z', '2026-10-26T23:00:00.000Z'],
    ['gp_for_vascular_specialist', '2026-03-20T09:00:00Z', '2026-04-03T22:00:00.000Z'],
    ['physiotherapist_or_podiatrist', '2026-03-20T09:00:00Z', '2026-04-17T22:00:00.000Z'],
  ] as const)('%s asked at %s is due by %s, by the clock of the studio', (route, now, due) => {
    expect(deadlineOf(route, { now: new Date(now), timeZone }).toISOString()).toBe(due);
  });

  it('gives a more pressing route never more time, and none to what asks no clinician', () => {
    const clock = { now: new Date('2026-03-02T13:00:00Z'), timeZone };
    const asked = routes.filter(needsClinician);
    const due = asked.map((route) => deadlineOf(route, clock).getTime());
    expect(due).toEqual([...due].sort((one, other) => one - other));
    expect(routes.filter((route) => !needsClinician(route))).toEqual(['fit_with_caution']);
    expect(() => deadlineOf('fit_with_caution', clock)).toThrow(TypeError);
    expect(routes.filter(isUrgent)).toEqual(['emergency_now', 'same_day_medical']);
  });
});

import { describe, expect, it } from '@jest/globals';
import { positionFieldIds } from '@studio/fit-math';
import type { ChangeResponse, RiderResponse } from './changes.dto.js';
import { missingParts } from './missing.js';
import type { PositionResponse } from './positions.dto.js';

type Parts = Parameters<typeof missingParts>[0];

const position = (stage: 'found' | 'left', figures: Partial<PositionResponse>): PositionResponse =>
  ({
    ...Object.fromEntries(positionFieldIds.map((id) => [id, null])),
    stage,
    ...figures,
  }) as PositionResponse;

const change = (
  number: number,
  what: ChangeResponse['items'][number]['what'],
  response: Partial<RiderResponse> | null,
): ChangeResponse => ({ number, items: [{ what }], response }) as ChangeResponse;

const whole: Parts = {
  baseline: { pain: 3, comfort: 60, numbness: false, power20MinW: null, version: 1 },
  positions: [position('found', { saddleHeightMm: 740 }), position('left', { saddleHeightMm: 735 })],
  changes: [],
  spans: [],
  cleatPlans: [],
};
const missingOf = (parts: Partial<Parts>, screenedSites: string[] = []): string[] =>
  missingParts({ ...whole, ...parts }, screenedSites).map(({ stage, what }) => `${stage}: ${what}`);

describe('missingParts', () => {
  it('finds nothing missing in a whole session', () => {
    expect(missingOf({})).toEqual([]);
  });

  it('misses everything in an empty one, by stage', () => {
    expect(missingOf({ baseline: null, positions: [] })).toEqual([
      'interview: baseline',
      'on_the_bike: position_found',
      'hand_over: position_left',
    ]);
  });

  it('misses the saddle’s height where a position leaves it out', () => {
    const positions = [position('found', { barDropMm: 60 }), position('left', { saddleHeightMm: 735 })];
    expect(missingOf({ positions })).toEqual(['on_the_bike: position_found.saddleHeightMm']);
  });

  it('misses a figure that was changed in what was left, once', () => {
    const answered = { comfort: 70 };
    const changes = [
      change(1, 'barDropMm', answered),
      change(2, 'barDropMm', answered),
      change(3, 'saddleHeightMm', answered),
      change(4, 'saddle', answered),
    ];
    expect(missingOf({ changes })).toEqual(['hand_over: position_left.barDropMm']);
  });

  it('misses what the rider said of a change', () => {
    expect(missingOf({ changes: [change(1, 'saddle', { comfort: 70 }), change(2, 'saddle', null)] })).toEqual(
      ['changes: change_2.response'],
    );
  });

  it('misses the screening of pain at a place that none has heard of', () => {
    const pains = [
      { site: 'left_knee_front', pain: 2 },
      { site: 'neck', pain: 1 },
      { site: 'lower_back', pain: 0 },
    ];
    const changes = [change(1, 'saddle', { pains }), change(2, 'saddle', { pains })];
    expect(missingOf({ changes }, ['neck'])).toEqual(['changes: complaint.left_knee_front']);
  });

  it('misses the stop of a timer', () => {
    const spans = [
      { id: 'a', stage: 'bench' as const, startedAt: '2026-03-02T09:00:00Z', stoppedAt: null },
      {
        id: 'b',
        stage: 'interview' as const,
        startedAt: '2026-03-02T08:00:00Z',
        stoppedAt: '2026-03-02T09:00:00Z',
      },
    ];
    expect(missingOf({ spans })).toEqual(['bench: timer_bench']);
  });
});

import { describe, expect, it } from '@jest/globals';
import { activitiesOf } from './change-permissions.js';

describe('activitiesOf', () => {
  it.each([
    ['saddleHeightMm', ['riding']],
    ['saddle', ['riding', 'saddle_trial']],
    ['cleatBehindMth1LeftMm', ['riding', 'cleat_change']],
    ['cleats', ['riding', 'cleat_change']],
    ['shimRightMm', ['riding', 'wedge_or_shim']],
    ['wedge', ['riding', 'wedge_or_shim']],
  ] as const)('%s needs %j', (what, activities) => {
    expect(activitiesOf([{ what }])).toEqual(activities);
  });

  it('names each once', () => {
    expect(activitiesOf([{ what: 'cleats' }, { what: 'cleatRotationLeftDeg' }, { what: 'wedge' }])).toEqual([
      ...['riding', 'cleat_change', 'wedge_or_shim'],
    ]);
  });
});

import { describe, expect, it } from '@jest/globals';
import { nextVersion } from './based-on.js';

const values = { saddleHeightMm: 740 };
const one = 'device one';
const other = 'device other';

describe('nextVersion', () => {
  it.each([
    ['the first', null, 0, one, 1],
    ['one made from what stands', { version: 3, deviceId: other }, 3, one, 4],
    ['one made from what the same device wrote since', { version: 3, deviceId: one }, 1, one, 4],
    ['one that does not ask', { version: 3, deviceId: other }, undefined, one, 4],
  ] as const)('lets %s through', (_, standing, basedOn, deviceId, version) => {
    expect(nextVersion(standing, basedOn, deviceId, values)).toBe(version);
  });

  it.each([
    ['another device', { version: 2, deviceId: other }, one],
    ['a request online', { version: 2, deviceId: null }, one],
    ['a request online while this is one too', { version: 2, deviceId: null }, null],
  ] as const)('tells of %s', (_, standing, deviceId) => {
    expect(thrown(() => nextVersion(standing, 1, deviceId, values))).toMatchObject({
      ...{ code: 'fit-sessions.changed-meanwhile', extra: { standingVersion: 2 } },
      standing: { saddleHeightMm: 740 },
    });
  });

  it('tells that nothing stands of what was seen', () => {
    expect(thrown(() => nextVersion(null, 1, one, null))).toMatchObject({ standing: null });
  });
});

function thrown(work: () => unknown): unknown {
  try {
    work();
  } catch (error) {
    return error;
  }
  return undefined;
}

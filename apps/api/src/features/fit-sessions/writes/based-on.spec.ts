import { describe, expect, it } from '@jest/globals';
import { nextVersion } from './based-on.js';

const values = () => Promise.resolve({ saddleHeightMm: 740 });
const one = 'device one';
const other = 'device other';

describe('nextVersion', () => {
  it.each([
    ['the first', null, 0, one, 1],
    ['one made from what stands', { version: 3, deviceId: other }, 3, one, 4],
    ['one made from what the same device wrote since', { version: 3, deviceId: one }, 1, one, 4],
    ['one that does not ask', { version: 3, deviceId: other }, undefined, one, 4],
  ] as const)('lets %s through', async (_, standing, basedOn, deviceId, version) => {
    expect(await nextVersion(standing, basedOn, deviceId, values)).toBe(version);
  });

  it.each([
    ['another device', { version: 2, deviceId: other }, one],
    ['a request online', { version: 2, deviceId: null }, one],
    ['a request online while this is one too', { version: 2, deviceId: null }, null],
  ] as const)('tells of %s', async (_, standing, deviceId) => {
    await expect(nextVersion(standing, 1, deviceId, values)).rejects.toMatchObject({
      ...{ code: 'fit-sessions.changed-meanwhile', extra: { standingVersion: 2 } },
      standing: { saddleHeightMm: 740 },
    });
  });

  it('tells that nothing stands of what was seen', async () => {
    await expect(nextVersion(null, 1, one, values)).rejects.toMatchObject({ standing: null });
  });
});

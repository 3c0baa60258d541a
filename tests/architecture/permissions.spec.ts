import { expect, it } from '@jest/globals';
import { recordIdNames } from '../../apps/api/src/http/restricted-records.queries.js';
import { permissions } from '../../apps/api/src/permissions/permission-table.js';
import { operations } from '../helpers/openapi.js';

/** Of many people at once: those whose record is restricted are not among them. */
const ofMany = ['listOutcomes'];

it('every read of health leads to the person, so that it can be withheld', () => {
  const reads = operations.filter(({ permission }) => permission.health === true);
  expect(reads.length).toBeGreaterThan(30);
  const led = new Set<string>(recordIdNames);
  const lost = reads.filter(
    ({ id, pathParameters, query }) =>
      !ofMany.includes(id) &&
      ![...pathParameters, ...query.map(({ name }) => name)].some((name) => led.has(name)),
  );
  expect(lost).toEqual([]);
});

it('what shows health is read, by nobody at the front desk', () => {
  for (const { id, method, permission } of operations.filter((item) => item.permission.health === true)) {
    expect([id, method]).toEqual([id, 'GET']);
    expect([id, permission.who]).toEqual([id, expect.not.arrayContaining(['front_desk'])]);
  }
});

it('keeps to the owner what is the owner’s, and to fitters what is theirs', () => {
  const { reviewOutcomes, listAuditEntries, updateStaff, createService, giveClinicianMark } = permissions;
  for (const { who } of [reviewOutcomes, listAuditEntries, updateStaff, createService, giveClinicianMark]) {
    expect(who).toEqual(['owner']);
  }
  for (const { who } of [permissions.signFitSession, permissions.clearScreening, permissions.clearReferral]) {
    expect(who).toEqual(['fitter']);
  }
  const { listScreenings, getScreening, getReferral, listFitSessions, getFollowUp, getFile } = permissions;
  for (const { who } of [listScreenings, getScreening, getReferral, listFitSessions, getFollowUp, getFile]) {
    expect(who).toEqual(['owner', 'fitter']);
  }
});

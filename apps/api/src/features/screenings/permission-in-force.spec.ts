import { describe, expect, it } from '@jest/globals';
import { activities, evaluate, type Activity, type Permission } from '@studio/clinical-flags';
import fc from 'fast-check';
import { permissionInForce, stillBarred, type RaisedFinding } from './permission-in-force.js';

const newest = { id: 'newest', result: { ...evaluate({}), findings: [] } };
const [sample] = evaluate({ calf_pain_on_walking: 'yes' }).findings;
const raised = (permission: Permission, clearedScope: Activity[] | null = null): RaisedFinding => {
  if (!sample) throw new Error('there is no rule');
  return { id: 'f', screeningId: 's', finding: { ...sample, permission }, clearedScope };
};

const someActivities = fc.subarray([...activities]);
const somePermission = fc.oneof(
  fc.constant<Permission>({ level: 'none', barred: activities }),
  fc.constant<Permission>({ level: 'full', barred: [] }),
  someActivities
    .filter(({ length }) => length > 0)
    .map((barred): Permission => ({ level: 'limited', barred })),
);

describe('what a clearance leaves barred', () => {
  it('is what was barred without what it names, never more', () => {
    fc.assert(
      fc.property(somePermission, someActivities, (permission, scope) => {
        const left = stillBarred(permission, scope);
        expect(left.barred).toEqual(permission.barred.filter((activity) => !scope.includes(activity)));
        expect(left.level === 'full').toBe(left.barred.length === 0);
      }),
    );
  });

  it('is everything when there is none, and bars activities a rule did not know yet', () => {
    const known = activities.slice(0, 3);
    expect(stillBarred({ level: 'none', barred: known }, null)).toEqual({ level: 'none', barred: known });
    expect(stillBarred({ level: 'none', barred: known }, [...known]).barred).toEqual(activities.slice(3));
  });
});

describe('the permission in force', () => {
  it('bars what any finding bars that stands, and nothing else', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(somePermission, fc.option(someActivities))), (findings) => {
        const all = findings.map(([permission, scope]) => raised(permission, scope));
        const wanted = activities.filter((activity) =>
          findings.some(
            ([permission, scope]) =>
              (permission.level === 'none' || permission.barred.includes(activity)) &&
              !scope?.includes(activity),
          ),
        );
        expect(permissionInForce(all, [newest]).permission.barred).toEqual(wanted);
      }),
    );
  });

  it('counts what the newest screening cannot tell', () => {
    const unknown = { id: 'newest', result: evaluate({}) };
    expect(permissionInForce([], [unknown]).permission).toEqual(unknown.result.permission);
  });

  it('counts what the newest screening of any of two merged records cannot tell', () => {
    const unknown = { id: 'older', result: evaluate({}) };
    const { permission, openFacts, newest: first } = permissionInForce([], [newest, unknown]);
    expect(permission).toEqual(unknown.result.permission);
    expect(openFacts).toEqual(expect.arrayContaining([...unknown.result.openFacts]));
    expect(first).toBe(newest);
  });
});

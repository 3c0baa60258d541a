import { describe, expect, it } from '@jest/globals';
import { grantsOf, refusal, type Permission } from './permission.js';

const records: Permission = { who: ['owner', 'fitter'] };
const scores: Permission = { who: ['clinician'] };
const program = { readOnly: false };

describe('who may use an operation', () => {
  it('is whoever has one of the grants its row names', () => {
    expect(refusal(records, { roles: ['fitter'] }, 'GET')).toBeNull();
    expect(refusal(records, { roles: ['front_desk', 'owner'] }, 'GET')).toBeNull();
    expect(refusal(records, { roles: ['front_desk'] }, 'GET')).toBe('role');
    expect(refusal(records, { roles: [] }, 'GET')).toBe('role');
    expect(refusal({ who: [] }, { roles: ['owner'] }, 'GET')).toBe('role');
    expect(refusal({ who: 'anyone' }, { roles: [] }, 'POST')).toBeNull();
  });

  it('a clinician is a fitter of whom an owner confirmed it, in person', () => {
    expect(refusal(scores, { roles: ['fitter'], clinician: true }, 'POST')).toBeNull();
    expect(refusal(scores, { roles: ['fitter'] }, 'POST')).toBe('role');
    expect(refusal(scores, { roles: ['owner', 'front_desk'], clinician: true }, 'POST')).toBe('role');
    expect(grantsOf({ roles: ['fitter'], clinician: true, program })).toEqual(['fitter']);
  });

  it('a program reads and writes as its key says, and never what is for the person alone', () => {
    const readOnly = { roles: ['owner'], program: { readOnly: true } } as const;
    expect(refusal(records, readOnly, 'GET')).toBeNull();
    expect(refusal(records, readOnly, 'PUT')).toBe('role');
    expect(refusal(records, { roles: ['owner'], program }, 'PUT')).toBeNull();
    expect(refusal({ ...records, inPerson: true }, { roles: ['owner'], program }, 'GET')).toBe('program');
  });
});

import { describe, expect, it } from '@jest/globals';
import { cleatWays } from '@studio/fit-math';
import {
  afterShoeWork,
  consentTexts,
  fixings,
  following,
  missingSteps,
  possibleSteps,
  procedures,
  shoes,
  shoeWorkFeasibility,
  shoeWorkStates,
  shoeWorkWays,
  stepsFor,
  valueProblems,
  type Feasibility,
  type ShoeWorkFacts,
} from './index.js';

const shoe: ShoeWorkFacts = {
  outerLengthMm: 290,
  holePattern: 'three_bolt',
  slotRearFromHeelMm: 197,
  archChannel: false,
  soleCurve: 'slight',
  soleMaterial: 'carbon',
  cracked: false,
  recalled: false,
};
const of = (way: string, changed: Partial<ShoeWorkFacts> = {}): Feasibility | undefined =>
  shoeWorkFeasibility({ ...shoe, ...changed }).find((item) => item.way === way);
const codes = (found: Feasibility | undefined) => found?.reasons.map(({ code }) => code);

describe('feasibility', () => {
  it('is told of every way that needs the whole arch, and of no other', () => {
    const told = shoeWorkFeasibility(shoe).map(({ way }) => way);
    expect(told).toEqual(cleatWays.filter(({ needsWholeArch }) => needsWholeArch).map(({ id }) => id));
  });

  it('holds when all is known and nothing is against it', () => {
    expect(of('slot_extension')).toMatchObject({ result: 'feasible', reasons: [], missing: [] });
    expect(of('arch_base_four_bolt')?.result).toBe('feasible');
    expect(codes(of('arch_base_three_bolt'))).toEqual(['curved-cleat-on-flat-base']);
  });

  it.each([
    ['arch-channel', { archChannel: true }],
    ['material-soft', { soleMaterial: 'rubber' }],
    ['cracked', { cracked: true }],
    ['recalled', { recalled: true }],
    ['slots-reach', { slotRearFromHeelMm: 145 }],
  ] as const)('fails for %s, whatever the way', (code, changed) => {
    for (const { way } of shoeWorkWays) {
      const found = of(way.id, changed);
      expect([way.id, found?.result]).toEqual([way.id, 'not_feasible']);
      expect(codes(found)).toContain(code);
    }
  });

  it('asks the curve and the reach of the way that needs it', () => {
    expect(codes(of('arch_base_four_bolt', { soleCurve: 'strong' }))).toEqual(['curve-strong']);
    expect(of('slot_extension', { soleCurve: 'strong' })?.result).toBe('feasible');
    // 15 mm behind slots that end at 155 would be at 140, behind the midfoot line at 145.
    expect(codes(of('slot_extension', { slotRearFromHeelMm: 155 }))).toEqual(['behind-midfoot']);
    expect(of('arch_base_four_bolt', { slotRearFromHeelMm: 155 })?.result).toBe('feasible');
  });

  it.each(['soleCurve', 'soleMaterial', 'cracked', 'recalled'] as const)(
    'cannot be told without %s, and says so',
    (fact) => {
      const found = of('arch_base_four_bolt', { [fact]: null });
      expect(found).toMatchObject({ result: 'cannot_tell', reasons: [], missing: [{ fact }] });
    },
  );

  it('is refused for what is known, and still names what is not', () => {
    const found = of('arch_base_four_bolt', { archChannel: true, soleMaterial: null });
    expect(found).toMatchObject({ result: 'not_feasible', missing: [{ fact: 'soleMaterial' }] });
    expect(of('slot_extension', { soleMaterial: 'other' })?.result).toBe('cannot_tell');
  });
});

describe('the procedure', () => {
  it.each(procedures.flatMap((procedure) => fixings.map((fixing) => [procedure.version, fixing] as const)))(
    'version %s, %s, changes the sole once photographed and marked, and ends with the second torque',
    (version, fixing) => {
      const procedure = procedures.find((item) => item.version === version) ?? procedures[0];
      const steps = stepsFor(procedure, fixing);
      const ids = steps.map(({ id }) => id);
      expect(new Set(ids).size).toBe(ids.length);
      const stages = steps.map(({ stage }) => ['work', 'hand_over', 'riding'].indexOf(stage));
      expect(stages).toEqual([...stages].sort());
      const first = steps.findIndex(({ irreversible }) => irreversible === true);
      expect(ids.slice(0, first)).toEqual(['photographed', 'marked']);
      for (const step of steps.filter(({ irreversible }) => irreversible))
        expect(step.hazards).not.toEqual([]);
      expect(ids.slice(-4)).toEqual(['torqued', 'released_at_standstill', 'easy_ride', 'torqued_again']);
      expect(ids.includes('drilled')).toBe(fixing !== 'bonded');
      expect(ids.includes('bonded')).toBe(fixing !== 'drilled');
    },
  );

  it('offers of each shoe the next step, and none whose stage has not come', () => {
    const [procedure] = procedures;
    const next = (state: Parameters<typeof possibleSteps>[1]['state'], ...done: string[]) =>
      possibleSteps(
        procedure,
        { state, fixing: 'bonded' },
        done.map((step) => ({ step, shoe: 'left' })),
      ).map(({ step, shoe: side }) => `${side} ${step}`);
    expect(next('opened')).toEqual([]);
    expect(next('consented')).toEqual(['left photographed', 'right photographed']);
    expect(next('in_work', 'photographed', 'marked')).toEqual(['left bonded', 'right photographed']);
    expect(next('curing', 'photographed', 'marked', 'bonded')).toEqual([]);
    expect(next('to_collect')).toEqual(['left inside_checked', 'right inside_checked']);
    expect(next('abandoned')).toEqual([]);
    expect(missingSteps(procedure, 'drilled', [], 'work')).toHaveLength(3 * shoes.length);
  });

  it('takes no value that is missing, unknown, out of range or a check that does not hold', () => {
    const step = (id: string) => {
      const found = procedures[0].steps.find((item) => item.id === id);
      if (!found) throw new Error(`no step ${id}`);
      return found;
    };
    const fields = (id: string, values: Record<string, unknown>) =>
      valueProblems(step(id), values).map(({ field }) => field);
    expect(fields('torqued', { torqueNm: 5, torqueFrom: 'Leaflet.' })).toEqual([]);
    expect(fields('torqued', { torqueNm: 50, torqueFrom: ' ' })).toEqual([
      'values.torqueNm',
      'values.torqueFrom',
    ]);
    expect(fields('torqued', { torqueNm: '5', torqueFrom: 'a\0' })).toHaveLength(2);
    expect(fields('inside_checked', {})).toEqual(['values.nothingThroughInsole']);
    expect(fields('inside_checked', { nothingThroughInsole: false })).toHaveLength(1);
    expect(fields('inside_checked', { nothingThroughInsole: true, more: 1 })).toEqual(['values.more']);
  });
});

describe('states', () => {
  it('can all be abandoned until they are over, and lead to the end only through the hand-over', () => {
    for (const state of shoeWorkStates) {
      expect([state, following[state].includes('abandoned')]).toEqual([
        state,
        state !== 'done' && state !== 'abandoned',
      ]);
    }
    expect(shoeWorkStates.filter((state) => following[state].includes('collected'))).toEqual(['to_collect']);
  });
});

describe('what is signed and said', () => {
  it('tells in both languages that it cannot be undone, and of the warranty', () => {
    for (const { texts } of consentTexts) {
      expect(texts.en).toMatch(/cannot be undone.*warranty.*likely void/s);
      expect(texts.de).toMatch(/nicht rückgängig.*garantie erlischt wahrscheinlich/s);
    }
    expect(afterShoeWork.map(({ code }) => code)).toContain('torque-again');
  });
});

import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import {
  judgeLegLength,
  legLengthOptions,
  type LegLengthInput,
  type LegLengthOption,
  type LegLengthOptionsInput,
} from '../index.js';

const measured: LegLengthInput = {
  method: 'tape',
  readingsMm: [7, 9],
  nature: 'structural',
  newOrChanged: false,
  complaints: false,
};
const input: LegLengthOptionsInput = {
  rider: {
    leg: { thighMm: 434, shankMm: 425, footLeverMm: 140, ankleAboveSpindleMm: 120, crankLengthMm: 172.5 },
    footPitch: { kind: 'constant', pitchDeg: 15 },
    minimumKneeFlexionDeg: 35,
    seatTubeAngleDeg: 73,
  },
  differenceMm: { value: 8, sd: 2.6 },
  carriedBy: 'both',
  nature: 'structural',
  staggerMm: 6,
};

const optionOf = (id: LegLengthOption['id'], change: Partial<LegLengthOptionsInput> = {}): LegLengthOption =>
  legLengthOptions({ ...input, ...change }).options.find((option) => option.id === id) as LegLengthOption;

const saddleOf = (option: LegLengthOption, setFor: string) =>
  option.saddles.find((saddle) => saddle.setFor === setFor) as LegLengthOption['saddles'][number];

const codes = (cautions: readonly { readonly code: string }[]): string[] => cautions.map(({ code }) => code);

describe('judgeLegLength', () => {
  it('mirrors: the other side with the other sign', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -30, max: 30, noNaN: true }), { minLength: 1, maxLength: 5 }),
        (readings) => {
          const left = judgeLegLength({ ...measured, readingsMm: readings });
          const right = judgeLegLength({ ...measured, readingsMm: readings.map((reading) => -reading) });
          expect(right.differenceMm.value).toBeCloseTo(-left.differenceMm.value, 9);
          expect(right.beyondError).toBe(left.beyondError);
          if (left.beyondError) expect(right.longerSide).not.toBe(left.longerSide);
          else expect(left.longerSide).toBe('cannot-tell');
        },
      ),
    );
  });

  it('calls no side longer within the error, and rules nothing out', () => {
    const judged = judgeLegLength({ ...measured, readingsMm: [5] });
    expect(judged.longerSide).toBe('cannot-tell');
    expect(codes(judged.cautions)).toContain('within-error');
  });

  it('takes the readings’ own scatter where it is worse than the method', () => {
    expect(judgeLegLength(measured).differenceMm).toEqual({ value: 8, sd: 2.6 });
    expect(judgeLegLength({ ...measured, readingsMm: [0, 16] }).differenceMm.sd).toBe(8);
    expect(judgeLegLength({ ...measured, readingsMm: [0, 16] }).beyondError).toBe(false);
  });

  it.each([
    ['large', { readingsMm: [-20] }],
    ['new', { newOrChanged: true }],
    ['complaints', { complaints: true }],
    ['functional', { nature: 'functional' }],
  ] as const)('sends it to a clinician when %s', (code, change) => {
    expect(codes(judgeLegLength({ ...measured, ...change }).referTo)).toEqual([code]);
  });

  it('never takes what was not asked for reassurance', () => {
    const judged = judgeLegLength({ ...measured, newOrChanged: null, nature: 'not-judged' });
    expect(codes(judged.cautions)).toEqual(expect.arrayContaining(['not-asked', 'nature-not-judged']));
  });

  it('names the reading that cannot be', () => {
    expect(() => judgeLegLength({ ...measured, readingsMm: [8, 800] })).toThrow(
      expect.objectContaining({ name: 'FitMathError', field: 'readingsMm.1' }),
    );
    expect(() => judgeLegLength({ ...measured, readingsMm: [] })).toThrow(
      expect.objectContaining({ field: 'readingsMm.length' }),
    );
  });
});

describe('legLengthOptions', () => {
  it('leaves even legs even', () => {
    const even = optionOf('none', { differenceMm: { value: 0, sd: 0 } });
    for (const saddle of even.saddles) {
      expect(saddle.saddleHeightChangeMm).toBeCloseTo(0, 9);
      expect(saddle.kneeDifferenceDeg).toEqual({ value: 0, sd: 0 });
    }
  });

  it('gives the leg the saddle is set for its wanted flexion, and bends the longer more', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 25, noNaN: true }),
        fc.constantFrom('thigh' as const, 'shank' as const, 'both' as const),
        (value, carriedBy) => {
          const none = optionOf('none', { differenceMm: { value, sd: 1 }, carriedBy });
          expect(saddleOf(none, 'longer').longer.kneeFlexionDeg).toBeCloseTo(35, 1);
          expect(saddleOf(none, 'shorter').shorter.kneeFlexionDeg).toBeCloseTo(35, 1);
          for (const { kneeDifferenceDeg } of none.saddles) {
            expect(kneeDifferenceDeg.value).toBeGreaterThan(0);
            expect(kneeDifferenceDeg.sd).toBeGreaterThan(0);
          }
          const heights = none.saddles.map(({ saddleHeightChangeMm }) => saddleHeightChangeMm);
          const [longer = 0, shorter = 0, between = 0] = heights;
          expect(longer).toBeGreaterThan(between);
          expect(between).toBeGreaterThan(shorter);
        },
      ),
      { numRuns: 20 },
    );
  });

  it('brings the knees closer by a shim, by a stagger with the toe down, and most by both', () => {
    const apart = (id: LegLengthOption['id']): number =>
      saddleOf(optionOf(id), 'between').kneeDifferenceDeg.value;
    expect(apart('shim')).toBeLessThan(apart('none'));
    expect(apart('stagger')).toBeLessThan(apart('none'));
    expect(apart('shim-and-stagger')).toBeLessThan(Math.min(apart('shim'), apart('stagger')));
  });

  it('takes nearly all of the knees’ difference away by a shim as high as it', () => {
    const whole = saddleOf(optionOf('shim', { shimShare: 1 }), 'between').kneeDifferenceDeg.value;
    const none = saddleOf(optionOf('none'), 'between').kneeDifferenceDeg.value;
    expect(Math.abs(whole)).toBeLessThan(0.25 * none);
  });

  it('helps little by a stagger when the heel is dropped: the lever then lies nearly level', () => {
    const gain = (pitchDeg: number): number => {
      const rider = { ...input.rider, footPitch: { kind: 'constant' as const, pitchDeg } };
      return (
        saddleOf(optionOf('none', { rider }), 'between').kneeDifferenceDeg.value -
        saddleOf(optionOf('stagger', { rider }), 'between').kneeDifferenceDeg.value
      );
    };
    expect(gain(25)).toBeGreaterThan(3 * Math.abs(gain(-8)));
  });

  it.each([
    ['not-structural', { nature: 'functional' }],
    ['not-structural', { nature: 'not-judged' }],
    ['within-error', { differenceMm: { value: 5, sd: 2.6 } }],
    ['small', { differenceMm: { value: 3, sd: 1 } }],
    ['large', { differenceMm: { value: 20, sd: 1 } }],
  ] as const)('offers no shim: %s', (code, change) => {
    for (const id of ['shim', 'shim-and-stagger'] as const) {
      const option = optionOf(id, change);
      expect(option.offered).toBe(false);
      expect(codes(option.reasons)).toContain(code);
    }
    expect(optionOf('none', change).offered).toBe(true);
  });

  it('puts half of the difference under the shorter leg unless told otherwise', () => {
    expect(optionOf('shim').shimMm).toBe(4);
    expect(optionOf('shim', { shimShare: 0.25 }).shimMm).toBe(2);
    expect(optionOf('shim').offered).toBe(true);
  });

  it.each([
    ['differenceMm.value', { differenceMm: { value: -1, sd: 1 } }],
    ['shimShare', { shimShare: 2 }],
    ['staggerMm', { staggerMm: Number.NaN }],
  ])('names an impossible %s', (field, change) => {
    expect(() => legLengthOptions({ ...input, ...change })).toThrow(
      expect.objectContaining({ name: 'FitMathError', field }),
    );
  });
});

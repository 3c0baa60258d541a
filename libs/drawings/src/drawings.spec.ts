import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import {
  agreementPlot,
  answerFunnel,
  changeDistribution,
  courseOverTime,
  measureForest,
  pairedSlopes,
  type SlopePair,
} from './index.js';
import { expectSound, textsOf } from './testing/expect-sound.js';

const about = { title: 'Pain on the bike', subtitle: 'all riders' };
const value = fc.double({ min: -500, max: 500, noNaN: true });
const verdict = fc.constantFrom('better', 'no real change', 'worse', 'cannot tell');
const pair = fc.record({ before: value, after: value, verdict });
const interval = (middle: number, half: number) => ({ low: middle - half, high: middle + half });

describe('every drawing is sound, whatever the numbers', () => {
  it('paired slopes', () => {
    fc.assert(
      fc.property(fc.array(pair, { minLength: 1, maxLength: 40 }), (pairs) => {
        expectSound(pairedSlopes({ ...about, unit: 'of 10', pairs }));
      }),
    );
  });

  it('distribution of change', () => {
    const changes = fc.array(fc.oneof(value, fc.integer({ min: -10, max: 10 })), {
      minLength: 1,
      maxLength: 60,
    });
    fc.assert(
      fc.property(changes, fc.option(fc.double({ min: 0.1, max: 50, noNaN: true })), (all, bandHalfWidth) => {
        const meanChange = all.reduce((sum, change) => sum + change, 0) / all.length;
        const drawing = changeDistribution({
          ...about,
          unit: 'W',
          changes: all,
          bandHalfWidth,
          meanChange,
          interval95: all.length > 1 ? interval(meanChange, 3) : null,
        });
        expectSound(drawing);
        expect(drawing.data.rows.reduce((sum, [, , people]) => sum + Number(people), 0)).toBe(all.length);
      }),
    );
  });

  it('forest of measures', () => {
    fc.assert(
      fc.property(fc.array(fc.record({ change: value, half: fc.nat(60) }), { maxLength: 5 }), (rows) => {
        expectSound(
          measureForest({
            ...about,
            rows: rows.map(({ change, half }, index) => ({
              label: `Measure ${index}`,
              unit: 'W',
              n: index,
              change: index === 3 ? null : change,
              interval95: index === 3 ? null : interval(change, half),
              better: index % 2 === 0 ? 'lower' : 'higher',
              important: 10,
            })),
          }),
        );
      }),
    );
  });

  it('agreement', () => {
    const pairs = fc.array(fc.record({ first: value, second: value }), { minLength: 1, maxLength: 40 });
    fc.assert(
      fc.property(
        pairs,
        value,
        fc.option(fc.double({ min: 0, max: 100, noNaN: true })),
        (all, bias, half) => {
          expectSound(
            agreementPlot({
              ...about,
              unit: 'mm',
              firstName: 'computed',
              secondName: 'left',
              pairs: all,
              bias,
              limits: half === null ? null : interval(bias, half),
            }),
          );
        },
      ),
    );
  });

  it('funnel of answers', () => {
    fc.assert(
      fc.property(fc.array(fc.nat(2000), { minLength: 2, maxLength: 5 }), (counts) => {
        const sorted = [...counts].sort((one, other) => other - one);
        const stages = sorted.map((n, index) => {
          const lost = (sorted[index - 1] ?? n) - n;
          return {
            label: `stage ${index}`,
            n,
            lost: index === 0 ? [] : [{ label: 'did not answer', n: lost }],
          };
        });
        expectSound(answerFunnel({ ...about, stages }));
      }),
    );
  });

  it('course over time', () => {
    const points = fc
      .uniqueArray(fc.integer({ min: 1, max: 60 }), { maxLength: 3 })
      .chain((weeks) =>
        fc.record(
          Object.fromEntries(
            [0, ...weeks].sort((a, b) => a - b).map((week) => [`w${week}`, fc.option(fc.nat(100))]),
          ),
        ),
      );
    fc.assert(
      fc.property(points, fc.option(fc.nat(30)), (values, bandHalfWidth) => {
        const panel = {
          label: 'Comfort on the bike',
          unit: 'of 100',
          better: 'higher' as const,
          scale: { low: 0, high: 100 },
          bandHalfWidth,
          points: Object.entries(values).map(([week, at]) => ({
            week: Number(week.slice(1)),
            value: at ?? null,
          })),
        };
        expectSound(courseOverTime({ ...about, panels: [panel, { ...panel, scale: null }] }));
      }),
    );
  });
});

describe('a drawing shows its numbers', () => {
  const slope = (before: number, after: number): SlopePair => ({ before, after, verdict: 'better' });

  it('to scale: lines of slopes begin and end where their values are', () => {
    const { svg } = pairedSlopes({ ...about, unit: 'of 10', pairs: [slope(0, 10), slope(10, 0)] });
    const ends = [...svg.matchAll(/<line x1="130" y1="([\d.]+)" x2="350" y2="([\d.]+)" stroke="#1f5a6b"/g)];
    const [up, down] = ends.map(([, from, to]) => [Number(from), Number(to)]);
    expect(up).toEqual([...(down ?? [])].reverse());
    expect(up?.[0]).toBeGreaterThan(up?.[1] ?? NaN);
  });

  it('draws no more than 150 slopes, and says so', () => {
    const many = Array.from({ length: 400 }, (_, index) => slope(index, index / 2));
    const drawing = pairedSlopes({ ...about, unit: 'W', pairs: many });
    expect(drawing.svg.match(/stroke="#1f5a6b"/g)).toHaveLength(151);
    expect(drawing.description).toContain('150 of 400 are drawn');
    expect(drawing.data.rows).toHaveLength(400);
  });

  it('turns a measure of which less is better, so that better is always to the right', () => {
    const row = { unit: '', n: 9, change: -2, interval95: null, important: 2 };
    const { svg } = measureForest({
      ...about,
      rows: [
        { ...row, label: 'pain', better: 'lower' },
        { ...row, label: 'comfort', better: 'higher' },
      ],
    });
    const [pain, comfort] = [...svg.matchAll(/<rect x="([\d.]+)" y="[\d.]+" width="10"/g)].map(([, x]) =>
      Number(x),
    );
    expect(pain).toBeGreaterThan(comfort ?? NaN);
  });

  it('keeps the bars of a change that is real out of the band', () => {
    const { svg, description } = changeDistribution({
      ...about,
      unit: 'of 10',
      changes: [-2, -1, 0, 1],
      bandHalfWidth: 2,
      meanChange: -0.5,
      interval95: null,
    });
    const band = /<rect x="([\d.]+)" y="94" width="([\d.]+)"[^>]*fill="#e6ebee"/.exec(svg);
    const bar = /<rect x="([\d.]+)"[^>]*fill="#74838f"/.exec(svg);
    expect(Number(bar?.[1])).toBeLessThan(Number(band?.[1]));
    expect(description).toContain('1 reach it');
  });

  it('refuses a funnel whose losses do not add up', () => {
    const stages = [
      { label: 'all', n: 10, lost: [] },
      { label: 'answered', n: 6, lost: [{ label: 'silent', n: 3 }] },
    ];
    expect(() => answerFunnel({ ...about, stages })).toThrow(RangeError);
  });

  it('writes words as words, whatever they hold', () => {
    const { svg } = answerFunnel({
      title: '<script>alert("1 & 2")</script>',
      subtitle: '',
      stages: [{ label: `"'<&>`, n: 0, lost: [] }],
    });
    expect(svg).not.toContain('<script');
    expect(textsOf(svg).map(({ words }) => words)).toContain(`"'<&>`);
  });

  it.each([
    ['slopes', () => pairedSlopes({ ...about, unit: '', pairs: [] })],
    [
      'a distribution',
      () =>
        changeDistribution({
          ...about,
          unit: '',
          changes: [],
          bandHalfWidth: 1,
          meanChange: 0,
          interval95: null,
        }),
    ],
    [
      'agreement',
      () =>
        agreementPlot({
          ...about,
          unit: '',
          firstName: 'a',
          secondName: 'b',
          pairs: [],
          bias: 0,
          limits: null,
        }),
    ],
  ])('has no %s of nobody', (_, draw) => {
    expect(draw).toThrow(RangeError);
  });
});

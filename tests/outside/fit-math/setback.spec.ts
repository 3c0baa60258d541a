import { describe, expect, it } from '@jest/globals';
import { checkRacingSaddle, effectiveSeatAngle, saddlePlace } from '@studio/fit-math';

describe('setback of an effective seat angle (trigonometry, worked apart from this library)', () => {
  it('740 mm at 73°: 216.4 mm behind, 12.35 mm a degree', () => {
    expect(saddlePlace(740, 73).setbackMm).toBeCloseTo(216.4, 1);
    const perDegree = saddlePlace(740, 72.5).setbackMm - saddlePlace(740, 73.5).setbackMm;
    expect(Math.abs(perDegree - 12.35)).toBeLessThan(0.01);
  });

  it('reads the angle of a 3-4-5 triangle', () => {
    const { saddleHeightMm, effectiveSeatAngleDeg } = effectiveSeatAngle({ setbackMm: 450, riseMm: 600 });
    expect(saddleHeightMm).toBe(750);
    expect(effectiveSeatAngleDeg).toBeCloseTo(53.1301, 4);
  });
});

describe('UCI regulations, articles 1.3.013 (in force 1 January 2014) and 1.3.014 (guide of 23 April 2014)', () => {
  const saddle = { tipSetbackMm: 50, saddleLengthMm: 270, tiltDeg: 0, tipExemption: false };

  it('wants the tip 5 cm behind the vertical through the bottom bracket', () => {
    expect(checkRacingSaddle(saddle).tipSetback).toBe('meets');
    expect(checkRacingSaddle({ ...saddle, tipSetbackMm: 49.9 }).tipSetback).toBe('breaks');
  });

  it('lets it come to that vertical in sprints on the track or by build, never in front', () => {
    expect(checkRacingSaddle({ ...saddle, tipSetbackMm: 0, tipExemption: true }).tipSetback).toBe('meets');
    expect(checkRacingSaddle({ ...saddle, tipSetbackMm: -0.1, tipExemption: true }).tipSetback).toBe(
      'breaks',
    );
  });

  it.each([
    [235, 'meets'],
    [234.9, 'breaks'],
    [305, 'meets'],
    [305.1, 'breaks'],
  ] as const)('24 to 30 cm long with 5 mm of tolerance: %d mm %s', (saddleLengthMm, result) => {
    expect(checkRacingSaddle({ ...saddle, saddleLengthMm }).saddleLength).toBe(result);
  });

  it.each([
    [9, 'meets'],
    [-9, 'meets'],
    [9.1, 'breaks'],
  ] as const)('at most 9° of tilt: %d° %s', (tiltDeg, result) => {
    expect(checkRacingSaddle({ ...saddle, tiltDeg }).tilt).toBe(result);
  });
});

import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import {
  analyseMotion,
  hipForKneeFlexion,
  jointAngles,
  readMotionCsv,
  type FilmSettings,
  type FootPitch,
  type Leg,
  type MarkerName,
  type MarkerRecording,
} from '../index.js';

const leg: Leg = {
  thighMm: 434,
  shankMm: 425,
  footLeverMm: 140,
  ankleAboveSpindleMm: 120,
  crankLengthMm: 172.5,
};
const toePointing: FootPitch = { kind: 'clock', readingsDeg: [12, 8, 18, 25] };
const film: FilmSettings = {
  sideSeen: 'right',
  imageY: 'down',
  mmPerUnit: 2,
  markerLineWithSoleLevelDeg: 0,
};

/** A rider filmed: the chain's own places, as a camera at 2 mm to the pixel would see them. */
function filmed(pitch: FootPitch, options: { seconds?: number; hz?: number; rpm?: number } = {}) {
  const { seconds = 5, hz = 120, rpm = 90 } = options;
  const { hip } = hipForKneeFlexion(leg, pitch, 35, { kind: 'along-seat-tube', seatTubeAngleDeg: 73 });
  const samples = seconds * hz;
  const timeS = Array.from({ length: samples }, (_, i) => i / hz);
  const places: Record<MarkerName, [number[], number[]]> = {
    hip: [[], []],
    knee: [[], []],
    ankle: [[], []],
    heel: [[], []],
    toe: [[], []],
    spindle: [[], []],
  };
  const mark = (name: MarkerName, xMm: number, yMm: number): void => {
    places[name][0].push(600 + xMm / film.mmPerUnit);
    places[name][1].push(500 - yMm / film.mmPerUnit);
  };
  for (const time of timeS) {
    const crankDeg = 40 + 6 * rpm * time;
    const crank = (crankDeg * Math.PI) / 180;
    const { thighElevationDeg, ankleAngleDeg } = jointAngles(leg, pitch, hip, crankDeg % 360);
    const kneeX = hip.xMm + leg.thighMm * Math.cos((thighElevationDeg * Math.PI) / 180);
    const kneeY = hip.yMm + leg.thighMm * Math.sin((thighElevationDeg * Math.PI) / 180);
    const [spindleX, spindleY] = [leg.crankLengthMm * Math.sin(crank), leg.crankLengthMm * Math.cos(crank)];
    const theta = pitchFrom(ankleAngleDeg, kneeX, kneeY, spindleX, spindleY);
    const along = (a: number, v: number): [number, number] => [
      spindleX + a * Math.cos(theta) + v * Math.sin(theta),
      spindleY - a * Math.sin(theta) + v * Math.cos(theta),
    ];
    mark('hip', hip.xMm, hip.yMm);
    mark('knee', kneeX, kneeY);
    mark('ankle', ...along(-leg.footLeverMm, leg.ankleAboveSpindleMm));
    mark('heel', ...along(-leg.footLeverMm - 50, 30));
    mark('toe', ...along(60, 30));
    mark('spindle', spindleX, spindleY);
  }
  const markers = Object.fromEntries(
    Object.entries(places).map(([name, [x, y]]) => [name, { x, y }]),
  ) as unknown as MarkerRecording['markers'];
  return { recording: { kind: 'markers', timeS, markers } satisfies MarkerRecording, hip };
}

/** Solve the foot's pitch so that shank and sole make the ankle angle: by halving, apart from the library. */
function pitchFrom(
  ankleDeg: number,
  kneeX: number,
  kneeY: number,
  spindleX: number,
  spindleY: number,
): number {
  const excess = (theta: number): number => {
    const ankleX = spindleX - leg.footLeverMm * Math.cos(theta) + leg.ankleAboveSpindleMm * Math.sin(theta);
    const ankleY = spindleY + leg.footLeverMm * Math.sin(theta) + leg.ankleAboveSpindleMm * Math.cos(theta);
    return Math.atan2(kneeY - ankleY, kneeX - ankleX) + theta - (ankleDeg * Math.PI) / 180;
  };
  let low = -0.6;
  let high = 1;
  for (let i = 0; i < 60; i += 1) {
    const middle = (low + high) / 2;
    if (excess(middle) < 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** The recording with one column's values changed. */
function changed(
  recording: MarkerRecording,
  name: MarkerName,
  axis: 'x' | 'y',
  change: (value: number, i: number) => number,
): MarkerRecording {
  const track = { ...recording.markers[name], [axis]: recording.markers[name][axis].map(change) };
  return { ...recording, markers: { ...recording.markers, [name]: track } };
}

describe('analyseMotion', () => {
  const { recording, hip } = filmed(toePointing);
  const motion = analyseMotion(recording, film);

  it('finds the angles that the filmed leg has', () => {
    for (const sample of motion.samples) {
      const truth = jointAngles(leg, toePointing, hip, sample.crankDeg);
      expect(sample.kneeFlexionDeg.value).toBeCloseTo(truth.kneeFlexionDeg, 1);
      expect(sample.thighElevationDeg.value).toBeCloseTo(truth.thighElevationDeg, 1);
      expect(sample.ankleAngleDeg.value).toBeCloseTo(truth.ankleAngleDeg, 1);
      expect(sample.kneeFlexionDeg.sd).toBeLessThan(0.1);
    }
    expect(motion.samples[18]?.footPitchDeg.value).toBeCloseTo(8, 1);
    expect(motion.straightest.kneeFlexionDeg.value).toBeCloseTo(35, 1);
  });

  it('counts whole turns, cadence and crank', () => {
    expect(motion.turns).toBe(6);
    expect(motion.cadenceRpm.value).toBeCloseTo(90, 6);
    expect(motion.crankLengthFoundMm).toBeCloseTo(172.5, 6);
  });

  it('gives the leg chain a foot pitch that leads back to the same straightest knee', () => {
    const again = hipForKneeFlexion(leg, motion.footPitch, 35, {
      kind: 'along-seat-tube',
      seatTubeAngleDeg: 73,
    });
    expect(again.hipDistanceMm).toBeCloseTo(Math.hypot(hip.xMm, hip.yMm), 0);
    expect(again.straightestAtCrankDeg).toBeCloseTo(motion.straightest.crankDeg, 0);
  });

  it('says the same from either side, with y up or down, in any unit', () => {
    const mirrored: MarkerRecording = {
      ...recording,
      markers: Object.fromEntries(
        Object.entries(recording.markers).map(([name, { x, y }]) => [
          name,
          { x: x.map((value) => -0.5 * value), y: y.map((value) => 7 - 0.5 * value) },
        ]),
      ) as unknown as MarkerRecording['markers'],
    };
    const other = analyseMotion(mirrored, { ...film, sideSeen: 'left', imageY: 'up', mmPerUnit: 4 });
    expect(other.straightest.kneeFlexionDeg.value).toBeCloseTo(motion.straightest.kneeFlexionDeg.value, 9);
    expect(other.crankLengthFoundMm).toBeCloseTo(172.5, 6);
  });

  it.each([
    [-15, 'heel-dropped'],
    [0, 'level'],
    [20, 'toe-pointed'],
  ] as const)('calls a foot at %d° %s', (pitchDeg, posture) => {
    const { heelPosture, straightest } = analyseMotion(
      filmed({ kind: 'constant', pitchDeg }).recording,
      film,
    );
    expect(heelPosture).toBe(posture);
    expect(straightest.footPitchDeg.value).toBeCloseTo(pitchDeg, 6);
  });

  it('takes the line between markers that is not along the sole off', () => {
    const tilted = analyseMotion(recording, { ...film, markerLineWithSoleLevelDeg: 4 });
    expect(tilted.straightest.footPitchDeg.value).toBeCloseTo(motion.straightest.footPitchDeg.value - 4, 9);
  });

  it('refuses swapped markers with their row', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 599 }),
        fc.constantFrom<[MarkerName, MarkerName]>(
          ['hip', 'knee'],
          ['knee', 'ankle'],
          ['heel', 'toe'],
          ['ankle', 'toe'],
          ['ankle', 'spindle'],
        ),
        (row, [one, other]) => {
          const { markers } = recording;
          const swap = (axis: 'x' | 'y', to: MarkerName) => (value: number, i: number) =>
            i === row ? (markers[to][axis][i] ?? value) : value;
          let swapped: MarkerRecording = recording;
          for (const axis of ['x', 'y'] as const) {
            swapped = changed(swapped, one, axis, swap(axis, other));
            swapped = changed(swapped, other, axis, swap(axis, one));
          }
          expect(() => analyseMotion(swapped, film)).toThrow(
            new RegExp(`^rows\\.${row + 1}\\.[a-z-]+: .*swapped`),
          );
        },
      ),
      { numRuns: 60 },
    );
  });

  it('refuses a gap in time, a missing place and a crank that leaps, with the row', () => {
    const gap = { ...recording, timeS: recording.timeS.map((time, i) => (i >= 100 ? time + 0.1 : time)) };
    expect(() => analyseMotion(gap, film)).toThrow(/^rows\.101\.timeS: /);
    const lost = changed(recording, 'knee', 'y', (value, i) => (i === 41 ? Number.NaN : value));
    expect(() => analyseMotion(lost, film)).toThrow(/^rows\.42\.kneeY: /);
    const crankDeg = recording.timeS.map((time, i) => 540 * time + (i >= 200 ? 90 : 0));
    const flat = recording.timeS.map(() => 30);
    expect(() =>
      analyseMotion(
        {
          kind: 'angles',
          timeS: recording.timeS,
          crankDeg,
          kneeFlexionDeg: flat,
          thighElevationDeg: flat,
          ankleAngleDeg: flat,
          footPitchDeg: flat,
        },
        film,
      ),
    ).toThrow(/^rows\.201\.crankDeg: /);
  });

  it('refuses a leg upside down, back to front or in too few turns', () => {
    expect(() => analyseMotion(recording, { ...film, imageY: 'up' })).toThrow(/^imageY: /);
    expect(() => analyseMotion(recording, { ...film, sideSeen: 'left' })).toThrow(/^sideSeen: /);
    expect(() => analyseMotion(filmed(toePointing, { seconds: 2 }).recording, film)).toThrow(/^turns: /);
  });

  it('stays near the truth under a pixel of noise, and shows it as spread', () => {
    let state = 7;
    const noise = (): number => {
      state = (Math.imul(state, 1103515245) + 12345) & 0x7fffffff;
      return state / 0x7fffffff - 0.5;
    };
    let noisy: MarkerRecording = filmed(toePointing, { seconds: 30 }).recording;
    for (const name of Object.keys(recording.markers) as MarkerName[]) {
      noisy = changed(noisy, name, 'x', (value) => value + noise());
      noisy = changed(noisy, name, 'y', (value) => value + noise());
    }
    const found = analyseMotion(noisy, film);
    expect(Math.abs(found.straightest.kneeFlexionDeg.value - 35)).toBeLessThan(0.3);
    expect(found.straightest.kneeFlexionDeg.sd).toBeGreaterThan(0.05);
    expect(found.straightest.kneeFlexionDeg.sd).toBeLessThan(1);
  });

  it('takes a minute at 240 Hz', () => {
    const minute = filmed(toePointing, { seconds: 60, hz: 240 }).recording;
    expect(analyseMotion(minute, film).turns).toBe(89);
  });
});

describe('readMotionCsv', () => {
  const { recording } = filmed(toePointing);
  const names = Object.keys(recording.markers) as MarkerName[];
  const rows = recording.timeS.map((time, i) =>
    [
      time * 1000,
      ...names.flatMap((name) => [recording.markers[name].x[i], recording.markers[name].y[i]]),
    ].map(String),
  );
  const header = ['time_ms', ...names.flatMap((name) => [`${name}_x`, `${name}_y`])];
  const text = [header, ...rows].map((row) => row.join(',')).join('\n');

  it('reads markers with commas, and the same with semicolons and decimal commas', () => {
    const read = readMotionCsv(text);
    expect(read).toMatchObject({ kind: 'markers', markers: recording.markers });
    expect(analyseMotion(read, film).turns).toBe(6);
    const european = [header, ...rows].map((row) => row.join(';').replaceAll('.', ',')).join('\r\n') + '\r\n';
    expect(readMotionCsv('\uFEFF' + european)).toEqual(read);
  });

  it('reads angles, whichever order the columns come in', () => {
    const angles =
      'note,foot_pitch_deg,crank_deg,knee_flexion_deg,thigh_elevation_deg,ankle_angle_deg,time_s\n' +
      'a,12,10,80,20,95,0.5\n';
    expect(readMotionCsv(angles)).toEqual({
      kind: 'angles',
      timeS: [0.5],
      crankDeg: [10],
      kneeFlexionDeg: [80],
      thighElevationDeg: [20],
      ankleAngleDeg: [95],
      footPitchDeg: [12],
    });
  });

  it('names the row of an empty cell and a column that is missing', () => {
    const lines = text.split('\n');
    const broken = lines.map((line, i) => (i === 12 ? line.replace(/,[^,]*$/, ',') : line)).join('\n');
    expect(() => readMotionCsv(broken)).toThrow(/^rows\.12\.spindle_y: /);
    expect(() => readMotionCsv(text.replace('toe_y', 'tow_y'))).toThrow(/^columns\.toe_y: /);
    expect(() => readMotionCsv('')).toThrow(/^columns\.time_s: /);
  });
});

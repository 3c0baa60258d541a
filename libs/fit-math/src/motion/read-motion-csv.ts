import { FitMathError } from '../errors.js';
import { rowField, type MarkerTrack, type Recording, type Series } from './recording.js';

/**
 * Read a recording from text with a header row, separated by commas or semicolons (then with decimal commas or points).
 *
 * Columns in any order, others left aside: `time_s` or `time_ms`, then either `hip_x`, `hip_y` and so on for hip, knee,
 * ankle, heel, toe and spindle, or `crank_deg`, `knee_flexion_deg`, `thigh_elevation_deg`, `ankle_angle_deg` and
 * `foot_pitch_deg`. A gap is refused with its row, never filled.
 *
 * @throws FitMathError naming a missing column, or the row and column of a cell that is no number
 * @source house rule
 * @check src/motion/motion: commas, semicolons, decimal commas, order of columns
 * @tolerance exact
 * @example readMotionCsv('time_s,crank_deg,knee_flexion_deg,thigh_elevation_deg,ankle_angle_deg,foot_pitch_deg\n' +
 *   '0,10,80,20,95,12').kind; // 'angles'
 */
export function readMotionCsv(text: string): Recording {
  const [header = '', ...rows] = text
    .replace(/^\uFEFF/, '')
    .trimEnd()
    .split(/\r?\n/);
  const separator = header.includes(';') ? ';' : ',';
  const names = header.split(separator).map((name) => name.trim().toLowerCase());
  const cells = rows.map((row) => row.split(separator));

  const column = (name: string): Series => {
    const place = names.indexOf(name);
    if (place === -1) throw new FitMathError('input.out-of-range', `columns.${name}`, `a column ${name}`);
    return cells.map((row, index) => numberIn(row[place], index, name));
  };
  const track = (name: string): MarkerTrack => ({ x: column(`${name}_x`), y: column(`${name}_y`) });
  const timeS = names.includes('time_ms') ? column('time_ms').map((time) => time / 1000) : column('time_s');

  if (names.includes('hip_x')) {
    const markers = {
      hip: track('hip'),
      knee: track('knee'),
      ankle: track('ankle'),
      heel: track('heel'),
      toe: track('toe'),
      spindle: track('spindle'),
    };
    return { kind: 'markers', timeS, markers };
  }
  return {
    kind: 'angles',
    timeS,
    crankDeg: column('crank_deg'),
    kneeFlexionDeg: column('knee_flexion_deg'),
    thighElevationDeg: column('thigh_elevation_deg'),
    ankleAngleDeg: column('ankle_angle_deg'),
    footPitchDeg: column('foot_pitch_deg'),
  };
}

function numberIn(cell: string | undefined, index: number, column: string): number {
  const text = cell?.trim().replace(',', '.') ?? '';
  const value = text === '' ? Number.NaN : Number(text);
  if (!Number.isFinite(value)) {
    throw new FitMathError('input.not-a-number', rowField(index, column), 'a number in every row');
  }
  return value;
}

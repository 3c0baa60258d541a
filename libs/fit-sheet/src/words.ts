import type { PositionFieldId } from '@studio/fit-math';

/** Positions' figures by their names on paper. */
export const figureNamesInWords: Readonly<Record<PositionFieldId, string>> = {
  saddleHeightMm: 'Saddle height',
  saddleSetbackMm: 'Saddle setback, tip',
  saddleSetbackAt80Mm: 'Saddle setback, at 80 mm width',
  saddleTiltDeg: 'Saddle tilt, nose up',
  barReachMm: 'Saddle tip to bars',
  barDropMm: 'Drop to the bars',
  hoodReachMm: 'Saddle tip to hoods or grips',
  hoodDropMm: 'Drop to hoods or grips',
  barTiltDeg: 'Bar tilt, turned up',
  barWidthMm: 'Bar width',
  crankLengthMm: 'Crank length',
  cleatBehindMth1LeftMm: 'Left cleat behind the first metatarsal head',
  cleatBehindMth1RightMm: 'Right cleat behind the first metatarsal head',
  cleatFromNoseLeftMm: 'Left cleat from the nose of the shoe',
  cleatFromNoseRightMm: 'Right cleat from the nose of the shoe',
  cleatRotationLeftDeg: 'Left cleat, toe out',
  cleatRotationRightDeg: 'Right cleat, toe out',
  cleatOutwardLeftMm: 'Left foot outside the middle of the pedal',
  cleatOutwardRightMm: 'Right foot outside the middle of the pedal',
  shimLeftMm: 'Shims under the left cleat',
  shimRightMm: 'Shims under the right cleat',
};

/** `rear_plate_24` → `rear plate 24`. */
export const spaced = (id: string): string => id.replaceAll('_', ' ');

/** A true minus. */
export const numberWords = (value: number, digits = 0): string =>
  String(Number(value.toFixed(digits))).replace('-', '−');

export const signedWords = (value: number, digits = 0): string =>
  `${Number(value.toFixed(digits)) > 0 ? '+' : ''}${numberWords(value, digits)}`;

const months = 'January February March April May June July August September October November December';

/** `2026-03-02` → `2 March 2026`. */
export function dayWords(day: string): string {
  const [year, month, date] = day.split('-').map(Number);
  return `${date ?? ''} ${months.split(' ')[(month ?? 1) - 1] ?? ''} ${year ?? ''}`;
}

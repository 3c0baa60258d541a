const columns = [
  'time_s',
  'crank_deg',
  'knee_flexion_deg',
  'thigh_elevation_deg',
  'ankle_angle_deg',
  'foot_pitch_deg',
];

/** Five turns at 90 rpm, every 5°: knee 35° to 109°, straightest at the bottom; foot pitch 8° to 20° there. */
export function motionCsv(): string {
  const rows = Array.from({ length: 5 * 72 + 1 }, (_, i) => {
    const swing = (middle: number, by: number): number => middle + by * Math.cos((5 * i * Math.PI) / 180);
    return [i / 108, (5 * i) % 360, swing(72, 37), swing(-38, 24), swing(80, -10), swing(14, -6)]
      .map((value) => value.toFixed(5))
      .join(',');
  });
  return [columns.join(','), ...rows].join('\n');
}

export const film = {
  sideSeen: 'left' as const,
  imageY: 'down' as const,
  mmPerUnit: 1,
  markerLineWithSoleLevelDeg: 0,
};

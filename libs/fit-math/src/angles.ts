/** Radians exist inside this library only; every public edge is in degrees. */
export const radiansOf = (deg: number): number => (deg * Math.PI) / 180;

export const degreesOf = (rad: number): number => (rad * 180) / Math.PI;

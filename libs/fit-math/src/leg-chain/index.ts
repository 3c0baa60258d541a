export type { Point } from './ankle-position.js';
export type { FootPitch } from './foot-pitch.js';
export { hipForKneeFlexion, type HipSolution } from './hip-for-knee-flexion.js';
export { jointAngles, type JointAngles } from './joint-angles.js';
export type { Leg } from './leg.js';
export { legPoints, type LegPoints } from './leg-points.js';
export { revolution, straightest, type RevolutionSample } from './revolution.js';
export type { SaddlePath } from './saddle-path.js';

import { requireRange } from '../require-range.js';

/**
 * How much of the calf's holding load is left when the cleat goes back: the ratio of the ankle's levers about the
 * spindle. The foot pitch stands in both and cancels. A ratio only: nothing here knows the load.
 *
 * @param footLeverMm cleat centre back to below the ankle, before. 20–300
 * @param movesBackMm how far the cleat goes back; negative is forward
 * @returns new lever / old lever, 1 = no change
 * @source statics of the foot as a lever; direction as measured by Litzenberger et al. 2008, The Engineering of Sport
 *   7(1):215–222, calf effort down by more than 20 % with the cleat under the tarsometatarsal joints
 * @check outside/cleat-plan: Litzenberger et al. 2008, calf effort down by more than 20 %
 * @tolerance direction
 * @example ankleMomentRatio(140, 35); // 0.75
 */
export function ankleMomentRatio(footLeverMm: number, movesBackMm: number): number {
  requireRange('footLeverMm', footLeverMm, 20, 300);
  requireRange('movesBackMm', movesBackMm, -100, 150);
  return (footLeverMm - movesBackMm) / footLeverMm;
}

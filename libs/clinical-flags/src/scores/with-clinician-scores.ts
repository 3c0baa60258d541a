import { byUrgency, sumUp, type Evaluation } from '../evaluate.js';
import type { ClinicianScore } from './clinician.js';

/**
 * The evaluation with what a clinician's values add. They can only add: every finding of the screening stands, so
 * neither the route nor what is barred gets less.
 */
export function withClinicianScores(evaluation: Evaluation, scores: readonly ClinicianScore[]): Evaluation {
  const findings = [...evaluation.findings, ...scores.flatMap((score) => score.findings)].sort(byUrgency);
  return { ...evaluation, findings, ...sumUp(findings) };
}

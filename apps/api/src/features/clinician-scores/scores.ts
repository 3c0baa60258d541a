import {
  ankleBrachialIndex,
  ankleInjuryCriteria,
  claudicationQuestions,
  exerciseIndex,
  kneeInjuryCriteria,
  neuropathyQuestionnaire,
  twoLevelDvtScore,
  type Clinician,
  type ClinicianScore,
} from '@studio/clinical-flags';
import type { ClinicianScoreKind } from '@studio/database';
import type { RecordClinicianScoreRequest } from './clinician-scores.dto.js';

export interface Scored {
  readonly kind: ClinicianScoreKind;
  readonly found: object;
  readonly score: ClinicianScore;
}

/**
 * Every score that the request hands in values for.
 *
 * @throws ClinicianInputInvalid for a value that the score cannot take
 */
export function scoresOf(request: RecordClinicianScoreRequest, by: Clinician): Scored[] {
  const { twoLevelDvt, claudicationQuestions: walking, neuropathyQuestionnaire: feet } = request;
  const { ankleBrachialIndex: pressures, exerciseIndex: effort, ankleInjury, kneeInjury } = request;
  const scored = (kind: ClinicianScoreKind, found: object, score: ClinicianScore): Scored => ({
    ...{ kind, found, score },
  });
  return [
    twoLevelDvt && scored('two_level_dvt', twoLevelDvt, twoLevelDvtScore(twoLevelDvt, by)),
    pressures &&
      scored(
        'ankle_brachial_index',
        pressures,
        ankleBrachialIndex(pressures, pressures.symptomsOnEffort, by),
      ),
    effort && scored('exercise_index', effort, exerciseIndex(effort, by)),
    walking && scored('claudication_questions', walking, claudicationQuestions(walking, by)),
    feet && scored('neuropathy_questionnaire', feet, neuropathyQuestionnaire(feet.yes, feet.hasDiabetes, by)),
    ankleInjury && scored('ankle_injury', ankleInjury, ankleInjuryCriteria(ankleInjury, by)),
    kneeInjury && scored('knee_injury', kneeInjury, kneeInjuryCriteria(kneeInjury, by)),
  ].filter((item) => item !== undefined);
}

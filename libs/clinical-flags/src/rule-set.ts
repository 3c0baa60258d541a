import { evaluateRules, type Evaluation } from './evaluate.js';
import type { Facts } from './facts.js';
import type { Rule } from './rule.js';
import { achillesPain } from './rules/achilles-pain.js';
import { backPainDownOneLeg } from './rules/back-pain-down-one-leg.js';
import { backPainWithCordSigns } from './rules/back-pain-with-cord-signs.js';
import { bladderBowelOrBothLegs } from './rules/bladder-bowel-or-both-legs.js';
import { bonePainOnLoading } from './rules/bone-pain-on-loading.js';
import { bothAnklesSwollen } from './rules/both-ankles-swollen.js';
import { bothLowerLegsTightOnEffort } from './rules/both-lower-legs-tight-on-effort.js';
import { burningBetweenToes } from './rules/burning-between-toes.js';
import { calfGirthDifference } from './rules/calf-girth-difference.js';
import { calfPainOnWalking } from './rules/calf-pain-on-walking.js';
import { calfSnapped } from './rules/calf-snapped.js';
import { cancerWithNewBackPain } from './rules/cancer-with-new-back-pain.js';
import { chestPain } from './rules/chest-pain.js';
import { chestPainInThreeDays } from './rules/chest-pain-in-three-days.js';
import { chestPainOlder } from './rules/chest-pain-older.js';
import { clotNotCleared } from './rules/clot-not-cleared.js';
import { clotTreatedAndCleared } from './rules/clot-treated-and-cleared.js';
import { coldToesThatNeedALook } from './rules/cold-toes-that-need-a-look.js';
import { collapseOrSevereBreathlessness } from './rules/collapse-or-severe-breathlessness.js';
import { coughedBlood } from './rules/coughed-blood.js';
import { diabetesWithFootWound } from './rules/diabetes-with-foot-wound.js';
import { diabeticFootEmergency } from './rules/diabetic-foot-emergency.js';
import { feetWithoutFeeling } from './rules/feet-without-feeling.js';
import { feverWithBackOrJointPain } from './rules/fever-with-back-or-joint-pain.js';
import { footDropOrWeakerLimb } from './rules/foot-drop-or-weaker-limb.js';
import { footHotOrChanged } from './rules/foot-hot-or-changed.js';
import { footInfectionOrDroppedArch } from './rules/foot-infection-or-dropped-arch.js';
import { footNumbOffTheBike } from './rules/foot-numb-off-the-bike.js';
import { footNumbOnTheBike } from './rules/foot-numb-on-the-bike.js';
import { footRestPainOrSore } from './rules/foot-rest-pain-or-sore.js';
import { generalSigns } from './rules/general-signs.js';
import { handsNumbOrWeak } from './rules/hands-numb-or-weak.js';
import { handsTingleOnRides } from './rules/hands-tingle-on-rides.js';
import { heartSignsOnEffort } from './rules/heart-signs-on-effort.js';
import { hotSwollenJoint } from './rules/hot-swollen-joint.js';
import { inactiveWithKnownCondition } from './rules/inactive-with-known-condition.js';
import { injuryCannotLoad } from './rules/injury-cannot-load.js';
import { injuryWithFragileBones } from './rules/injury-with-fragile-bones.js';
import { kneeLocksOrGivesWay } from './rules/knee-locks-or-gives-way.js';
import { knownConditionWithoutRecentClearance } from './rules/known-condition-without-recent-clearance.js';
import { lastingPain } from './rules/lasting-pain.js';
import { legArteryOperationCleared } from './rules/leg-artery-operation-cleared.js';
import { legArteryOperationNotCleared } from './rules/leg-artery-operation-not-cleared.js';
import { legLengthDifferenceLarge } from './rules/leg-length-difference-large.js';
import { legLengthDifferenceWithComplaint } from './rules/leg-length-difference-with-complaint.js';
import { legNumb } from './rules/leg-numb.js';
import { legSignsWithChestSigns } from './rules/leg-signs-with-chest-signs.js';
import { legSignsWithClotRisk } from './rules/leg-signs-with-clot-risk.js';
import { legStaysColdOrPaleAfterEffort } from './rules/leg-stays-cold-or-pale-after-effort.js';
import { mildPainOnTheBike } from './rules/mild-pain-on-the-bike.js';
import { minorWithoutGuardian } from './rules/minor-without-guardian.js';
import { newOneSidedLegSwelling } from './rules/new-one-sided-leg-swelling.js';
import { oneLegDoesNotSettle } from './rules/one-leg-does-not-settle.js';
import { oneLegFadesAtOrdinaryLoad } from './rules/one-leg-fades-at-ordinary-load.js';
import { oneLegFadesOnHardEffort } from './rules/one-leg-fades-on-hard-effort.js';
import { outerThighNumb } from './rules/outer-thigh-numb.js';
import { outerThighNumbForLong } from './rules/outer-thigh-numb-for-long.js';
import { passedOutOnEffort } from './rules/passed-out-on-effort.js';
import { poorCirculationCleared } from './rules/poor-circulation-cleared.js';
import { poorCirculationNotCleared } from './rules/poor-circulation-not-cleared.js';
import { pregnancyOrRecentBirth } from './rules/pregnancy-or-recent-birth.js';
import { saddleNumbnessADayLater } from './rules/saddle-numbness-a-day-later.js';
import { saddleNumbnessOnRides } from './rules/saddle-numbness-on-rides.js';
import { saddleNumbnessThatRepeats } from './rules/saddle-numbness-that-repeats.js';
import { saddleNumbnessWithCordSigns } from './rules/saddle-numbness-with-cord-signs.js';
import { saddleNumbnessWithSteadyBackPain } from './rules/saddle-numbness-with-steady-back-pain.js';
import { severeOrRestingPain } from './rules/severe-or-resting-pain.js';
import { sexualChange } from './rules/sexual-change.js';
import { shoeCrackedOrRecalled } from './rules/shoe-cracked-or-recalled.js';
import { shoeWorkWithBrokenSkin } from './rules/shoe-work-with-broken-skin.js';
import { shoeWorkWithDiabetes } from './rules/shoe-work-with-diabetes.js';
import { shoeWorkWithFragileSkin } from './rules/shoe-work-with-fragile-skin.js';
import { skinReactsToMaterials } from './rules/skin-reacts-to-materials.js';
import { suddenColdPaleLeg } from './rules/sudden-cold-pale-leg.js';
import { suddenFaceArmOrSpeech } from './rules/sudden-face-arm-or-speech.js';
import { surgeryCleared } from './rules/surgery-cleared.js';
import { surgeryNotCleared } from './rules/surgery-not-cleared.js';
import { tenseLimb } from './rules/tense-limb.js';
import { thighOrButtockPainOnWalking } from './rules/thigh-or-buttock-pain-on-walking.js';
import { unsteadyOrClumsy } from './rules/unsteady-or-clumsy.js';
import { unsteadyWithClumsyOrNumbHands } from './rules/unsteady-with-clumsy-or-numb-hands.js';
import { whiteToesInTheCold } from './rules/white-toes-in-the-cold.js';

/** Raised with every change of a rule; stored with every screening. */
export const ruleSetVersion = '2026.3';

export const rules: readonly Rule[] = [
  chestPain,
  chestPainInThreeDays,
  chestPainOlder,
  collapseOrSevereBreathlessness,
  passedOutOnEffort,
  heartSignsOnEffort,
  inactiveWithKnownCondition,
  knownConditionWithoutRecentClearance,
  suddenFaceArmOrSpeech,
  legSignsWithChestSigns,
  newOneSidedLegSwelling,
  legSignsWithClotRisk,
  calfGirthDifference,
  coughedBlood,
  bothAnklesSwollen,
  clotNotCleared,
  clotTreatedAndCleared,
  suddenColdPaleLeg,
  legStaysColdOrPaleAfterEffort,
  oneLegDoesNotSettle,
  oneLegFadesOnHardEffort,
  oneLegFadesAtOrdinaryLoad,
  calfPainOnWalking,
  thighOrButtockPainOnWalking,
  footRestPainOrSore,
  poorCirculationNotCleared,
  poorCirculationCleared,
  legArteryOperationNotCleared,
  legArteryOperationCleared,
  backPainWithCordSigns,
  saddleNumbnessWithCordSigns,
  bladderBowelOrBothLegs,
  saddleNumbnessADayLater,
  saddleNumbnessWithSteadyBackPain,
  saddleNumbnessThatRepeats,
  sexualChange,
  saddleNumbnessOnRides,
  cancerWithNewBackPain,
  footDropOrWeakerLimb,
  feverWithBackOrJointPain,
  unsteadyWithClumsyOrNumbHands,
  unsteadyOrClumsy,
  backPainDownOneLeg,
  handsTingleOnRides,
  handsNumbOrWeak,
  outerThighNumb,
  outerThighNumbForLong,
  legNumb,
  feetWithoutFeeling,
  footNumbOffTheBike,
  burningBetweenToes,
  footNumbOnTheBike,
  hotSwollenJoint,
  injuryCannotLoad,
  injuryWithFragileBones,
  kneeLocksOrGivesWay,
  calfSnapped,
  bonePainOnLoading,
  generalSigns,
  severeOrRestingPain,
  lastingPain,
  mildPainOnTheBike,
  achillesPain,
  tenseLimb,
  bothLowerLegsTightOnEffort,
  diabeticFootEmergency,
  diabetesWithFootWound,
  footHotOrChanged,
  footInfectionOrDroppedArch,
  whiteToesInTheCold,
  coldToesThatNeedALook,
  legLengthDifferenceLarge,
  legLengthDifferenceWithComplaint,
  surgeryNotCleared,
  surgeryCleared,
  pregnancyOrRecentBirth,
  shoeWorkWithDiabetes,
  shoeWorkWithBrokenSkin,
  shoeWorkWithFragileSkin,
  skinReactsToMaterials,
  minorWithoutGuardian,
  shoeCrackedOrRecalled,
];

/**
 * Judge the facts by the rules in force.
 *
 * @param before the facts of the screening before, to tell what is raised anew from what stands there already
 */
export function evaluate(facts: Facts, before?: Facts): Evaluation {
  return evaluateRules(rules, ruleSetVersion, facts, before);
}

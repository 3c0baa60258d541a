export { factsOf, type Condition } from './condition.js';
export { conditionInWords } from './condition-in-words.js';
export { explain, openQuestions, type Explanation } from './explain.js';
export type { FactId, FactKey, Facts, YesNo } from './facts.js';
export { deskNotice, deskNotices, type DeskNotice } from './desk-notice.js';
export { strictest, type Evaluation } from './evaluate.js';
export { type Clinician, type Finding, type FindingResult } from './finding.js';
export * from './questions/index.js';
export {
  activities,
  routes,
  type Activity,
  type Area,
  type Permission,
  type PermissionLevel,
  type Route,
  type Rule,
} from './rule.js';
export { evaluate, rules, ruleSetVersion } from './rule-set.js';
export * from './scores/index.js';
export { withFinding, type RaisedIn } from './with-finding.js';

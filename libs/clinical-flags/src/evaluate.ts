import { combine, factsOf, judge, type DontKnow, type Judgement } from './condition.js';
import type { FactId, FactKey, Facts } from './facts.js';
import type { Finding, FindingResult } from './finding.js';
import {
  activities,
  barsEverything,
  barsNothing,
  routes,
  type Permission,
  type Route,
  type Rule,
} from './rule.js';

export interface Evaluation {
  readonly ruleSetVersion: string;
  /** Raised first, then what cannot be told, each by urgency of route; then the rest. */
  readonly findings: readonly Finding[];
  /** The most pressing route of what was raised; null when nothing was. That is not an all-clear. */
  readonly worstRoute: Route | null;
  /** The strictest of all that is raised or cannot be told. */
  readonly permission: Permission;
  /** Facts whose answers would settle what cannot be told. */
  readonly openFacts: readonly FactKey[];
  readonly caution: string;
}

const caution =
  'This sorts and routes; it does not diagnose. It does not replace the judgement of a licensed clinician, and ' +
  'nothing raised here does not mean that nothing is wrong.';

const urgent: readonly Route[] = ['emergency_now', 'same_day_medical'];

/**
 * Judge all rules. Pure and deterministic; the order of the answers does not matter.
 *
 * @param before the facts of the screening before, to tell what is raised anew from what stands there already
 */
export function evaluateRules(
  rules: readonly Rule[],
  ruleSetVersion: string,
  facts: Facts,
  before?: Facts,
): Evaluation {
  const findings = rules.map((rule) => find(rule, facts, before)).sort(byUrgency);
  return { ruleSetVersion, findings, ...sumUp(findings), caution };
}

/** What all findings come to: the worst route, the strictest permission, everything that is open. */
export function sumUp(
  findings: readonly Finding[],
): Pick<Evaluation, 'worstRoute' | 'permission' | 'openFacts'> {
  const counting = findings.filter(({ result }) => result === 'raised' || result === 'cannot_tell');
  const raised = counting.filter(({ result }) => result === 'raised');
  return {
    worstRoute: raised[0]?.route ?? null,
    permission: strictest(counting.map(({ permission }) => permission)),
    openFacts: [...new Set(counting.flatMap(({ openFacts }) => openFacts))],
  };
}

function find(rule: Rule, facts: Facts, before: Facts | undefined): Finding {
  const { id, version, area, route, permission, messageForClient, messageForStaff, wouldChange, source } =
    rule;
  const { result, restsOn } = judgeRule(rule, facts);
  return {
    ruleId: id,
    ruleVersion: version,
    area,
    result,
    route,
    permission,
    because: restsOn.flatMap((fact) => {
      const answer = facts[fact];
      return answer === undefined ? [] : [{ fact, answer }];
    }),
    openFacts: result === 'cannot_tell' ? restsOn : [],
    unchanged: before !== undefined && isUnchanged(rule, { result, restsOn }, facts, before),
    messageForClient,
    messageForStaff,
    wouldChange,
    source,
  };
}

interface RuleJudgement {
  readonly result: FindingResult;
  readonly restsOn: readonly FactKey[];
}

function judgeRule(rule: Rule, facts: Facts): RuleJudgement {
  const dontKnow: DontKnow = urgent.includes(rule.route) ? 'yes' : 'cannot_tell';
  const applies: Judgement = rule.appliesWhen
    ? judge(rule.appliesWhen, facts, dontKnow)
    : { truth: 'true', restsOn: [] };
  if (applies.truth === 'false') return { result: 'not_applicable', restsOn: applies.restsOn };
  const raised = judge(rule.raisedWhen, facts, dontKnow);
  if (raised.truth === 'false') return { result: 'clear', restsOn: raised.restsOn };
  const { truth, restsOn } = combine('all', [applies, raised]);
  return { result: truth === 'true' ? 'raised' : 'cannot_tell', restsOn };
}

function isUnchanged(rule: Rule, now: RuleJudgement, facts: Facts, before: Facts): boolean {
  const then = judgeRule(rule, before);
  return (
    then.result === now.result &&
    now.restsOn.every((fact) => JSON.stringify(facts[fact]) === JSON.stringify(before[fact]))
  );
}

/** The facts a rule reads, each once. */
export function factsOfRule(rule: Rule): FactId[] {
  const own = factsOf(rule.raisedWhen);
  return rule.appliesWhen ? [...new Set([...factsOf(rule.appliesWhen), ...own])] : own;
}

const resultOrder: readonly FindingResult[] = ['raised', 'cannot_tell', 'clear', 'not_applicable'];

export function byUrgency(left: Finding, right: Finding): number {
  return (
    resultOrder.indexOf(left.result) - resultOrder.indexOf(right.result) ||
    routes.indexOf(left.route) - routes.indexOf(right.route) ||
    (left.ruleId < right.ruleId ? -1 : 1)
  );
}

/** What all of them together still allow. */
export function strictest(permissions: readonly Permission[]): Permission {
  if (permissions.some(({ level }) => level === 'none')) return barsEverything;
  const barred = activities.filter((activity) =>
    permissions.some((permission) => permission.barred.includes(activity)),
  );
  return permissions.some(({ level }) => level === 'limited') ? { level: 'limited', barred } : barsNothing;
}

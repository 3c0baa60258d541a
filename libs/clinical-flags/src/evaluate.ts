import { factsOf, judge, type DontKnow } from './condition.js';
import type { FactId, Facts } from './facts.js';
import {
  activities,
  barsEverything,
  barsNothing,
  routes,
  type Area,
  type Permission,
  type Route,
  type Rule,
  type Source,
} from './rule.js';

export type FindingResult = 'raised' | 'clear' | 'cannot_tell' | 'not_applicable';

export interface Finding {
  readonly ruleId: string;
  readonly ruleVersion: number;
  readonly area: Area;
  readonly result: FindingResult;
  readonly route: Route;
  readonly permission: Permission;
  /** The answers the result rests on; empty for what was never answered. */
  readonly because: readonly { readonly fact: FactId; readonly answer: string }[];
  readonly messageForClient: string;
  readonly messageForStaff: string;
  readonly wouldChange: string;
  readonly source: Source;
}

export interface Evaluation {
  readonly ruleSetVersion: string;
  /** Raised first, then what cannot be told, each by urgency of route; then the rest. */
  readonly findings: readonly Finding[];
  /** The most pressing route of what was raised; null when nothing was. That is not an all-clear. */
  readonly worstRoute: Route | null;
  /** The strictest of all that is raised or cannot be told. */
  readonly permission: Permission;
  /** Facts whose answers would settle what cannot be told. */
  readonly openFacts: readonly FactId[];
  readonly caution: string;
}

const caution =
  'This sorts and routes; it does not diagnose. It does not replace the judgement of a licensed clinician, and ' +
  'nothing raised here does not mean that nothing is wrong.';

const urgent: readonly Route[] = ['emergency_now', 'same_day_medical'];

/** Judge all rules. Pure and deterministic; the order of the answers does not matter. */
export function evaluateRules(rules: readonly Rule[], ruleSetVersion: string, facts: Facts): Evaluation {
  const findings = rules.map((rule) => find(rule, facts)).sort(byUrgency);
  const counting = findings.filter(({ result }) => result === 'raised' || result === 'cannot_tell');
  const raised = counting.filter(({ result }) => result === 'raised');
  const undecided = rules.filter((rule) =>
    counting.some(({ ruleId, result }) => ruleId === rule.id && result === 'cannot_tell'),
  );
  return {
    ruleSetVersion,
    findings,
    worstRoute: raised[0]?.route ?? null,
    permission: strictest(counting.map(({ permission }) => permission)),
    openFacts: [...new Set(undecided.flatMap(factsOfRule))].filter((fact) => !isAnswered(facts, fact)),
    caution,
  };
}

function find(rule: Rule, facts: Facts): Finding {
  const { id, version, area, route, permission, messageForClient, messageForStaff, wouldChange, source } =
    rule;
  return {
    ruleId: id,
    ruleVersion: version,
    area,
    result: resultOf(rule, facts),
    route,
    permission,
    because: factsOfRule(rule).flatMap((fact) => {
      const answer = facts[fact];
      return answer === undefined ? [] : [{ fact, answer }];
    }),
    messageForClient,
    messageForStaff,
    wouldChange,
    source,
  };
}

function resultOf(rule: Rule, facts: Facts): FindingResult {
  const dontKnow: DontKnow = urgent.includes(rule.route) ? 'yes' : 'cannot_tell';
  const applies = rule.appliesWhen ? judge(rule.appliesWhen, facts, dontKnow) : 'true';
  if (applies === 'false') return 'not_applicable';
  const truth = judge(rule.raisedWhen, facts, dontKnow);
  if (truth === 'false') return 'clear';
  return truth === 'true' && applies === 'true' ? 'raised' : 'cannot_tell';
}

/** The facts a rule reads, each once. */
export function factsOfRule(rule: Rule): FactId[] {
  const own = factsOf(rule.raisedWhen);
  return rule.appliesWhen ? [...new Set([...factsOf(rule.appliesWhen), ...own])] : own;
}

const isAnswered = (facts: Facts, fact: FactId): boolean =>
  facts[fact] !== undefined && facts[fact] !== 'unknown';

const resultOrder: readonly FindingResult[] = ['raised', 'cannot_tell', 'clear', 'not_applicable'];

function byUrgency(left: Finding, right: Finding): number {
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

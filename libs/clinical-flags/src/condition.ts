import {
  keyOf,
  valueOf,
  type ChoiceFactId,
  type FactId,
  type FactKey,
  type Facts,
  type NumberFactId,
  type YesNoFactId,
} from './facts.js';
import { siteOf, type Site, type SiteAndSide } from './questions/body-sites.js';

/** One thing asked of one fact. */
export type Leaf =
  | { readonly yes: YesNoFactId }
  | { readonly no: YesNoFactId }
  | { readonly fact: NumberFactId; readonly atLeast: number }
  | { readonly fact: NumberFactId; readonly above: number }
  | { readonly fact: NumberFactId; readonly below: number }
  /** The choice, or one of the several choices, is among these. */
  | { readonly fact: ChoiceFactId; readonly anyOf: readonly string[] }
  /** Something was chosen, and nothing but these. */
  | { readonly fact: ChoiceFactId; readonly onlyOf: readonly string[] };

/** When a rule speaks, as data: so that it can be judged, put into words and asked what it reads. */
export type Condition =
  | Leaf
  | { readonly all: readonly Condition[] }
  | { readonly any: readonly Condition[] }
  /** Holds unless the answers clearly say otherwise: neither a gap nor "don't know" takes it away. */
  | { readonly unless: Condition }
  /** Some body site that was named, of these sites when given, fulfils it. */
  | { readonly someSite: Condition; readonly at?: readonly Site[] };

/** What "don't know" counts as: on the way to an emergency or to a doctor the same day it counts as yes. */
export type DontKnow = 'yes' | 'cannot_tell';

export type Truth = 'true' | 'false' | 'unknown';

/** A truth and the facts it rests on: those that decide it, or those that leave it open. */
export interface Judgement {
  readonly truth: Truth;
  readonly restsOn: readonly FactKey[];
}

/**
 * Three-valued logic (Kleene 1938): what is not known makes the whole unknown unless the rest decides it alone.
 */
export function judge(condition: Condition, facts: Facts, dontKnow: DontKnow, site?: SiteAndSide): Judgement {
  if ('all' in condition) {
    return combine(
      'all',
      condition.all.map((part) => judge(part, facts, dontKnow, site)),
    );
  }
  if ('any' in condition) {
    return combine(
      'any',
      condition.any.map((part) => judge(part, facts, dontKnow, site)),
    );
  }
  if ('unless' in condition) {
    const { truth, restsOn } = judge(condition.unless, facts, 'cannot_tell', site);
    return { truth: truth === 'true' ? 'false' : 'true', restsOn };
  }
  if ('someSite' in condition) return judgeSites(condition, facts, dontKnow);
  const id = factOf(condition);
  return { truth: truthOf(condition, valueOf(facts, id, site), dontKnow), restsOn: [keyOf(id, site)] };
}

/** What several judgements come to when all of them, or any of them, must hold. */
export function combine(kind: 'all' | 'any', parts: readonly Judgement[]): Judgement {
  const [decisive, otherwise] = kind === 'all' ? (['false', 'true'] as const) : (['true', 'false'] as const);
  let truth: Truth = otherwise;
  for (const part of parts) {
    if (part.truth === decisive) truth = decisive;
    else if (part.truth === 'unknown' && truth !== decisive) truth = 'unknown';
  }
  const restsOn = new Set<FactKey>();
  for (const part of parts) {
    if (part.truth === truth) for (const fact of part.restsOn) restsOn.add(fact);
  }
  return { truth, restsOn: [...restsOn] };
}

function judgeSites(
  { someSite, at }: Extract<Condition, { someSite: Condition }>,
  facts: Facts,
  dontKnow: DontKnow,
): Judgement {
  const named = facts.complaint_sites;
  if (named === undefined || typeof named === 'string') {
    // "Don't know where" is no sign of anything: it stays open, also on the way to an emergency.
    return { truth: named === 'none' ? 'false' : 'unknown', restsOn: ['complaint_sites'] };
  }
  const meant = named
    .map(siteOf)
    .filter((site) => site !== undefined)
    .filter(({ site }) => at?.includes(site) ?? true);
  const { truth, restsOn } = combine(
    'any',
    meant.map(({ id }) => judge(someSite, facts, dontKnow, id)),
  );
  return { truth, restsOn: truth === 'unknown' ? restsOn : unique(['complaint_sites', ...restsOn]) };
}

/** The fact a leaf reads. */
export const factOf = (leaf: Leaf): FactId => ('yes' in leaf ? leaf.yes : 'no' in leaf ? leaf.no : leaf.fact);

function truthOf(leaf: Leaf, value: Facts[FactKey], dontKnow: DontKnow): Truth {
  if (value === undefined) return 'unknown';
  if (value === 'unknown') return dontKnow === 'yes' ? 'true' : 'unknown';
  return holds(leaf, value) ? 'true' : 'false';
}

function holds(leaf: Leaf, value: string | number | readonly string[]): boolean {
  if ('yes' in leaf) return value === 'yes';
  if ('no' in leaf) return value === 'no';
  if ('atLeast' in leaf) return typeof value === 'number' && value >= leaf.atLeast;
  if ('above' in leaf) return typeof value === 'number' && value > leaf.above;
  if ('below' in leaf) return typeof value === 'number' && value < leaf.below;
  const chosen = Array.isArray(value)
    ? (value as readonly string[])
    : value === 'none'
      ? []
      : [String(value)];
  return 'anyOf' in leaf
    ? chosen.some((option) => leaf.anyOf.includes(option))
    : chosen.length > 0 && chosen.every((option) => leaf.onlyOf.includes(option));
}

/** The facts a condition reads, each once, in the order it names them. */
export function factsOf(condition: Condition): FactId[] {
  if ('all' in condition) return unique(condition.all.flatMap(factsOf));
  if ('any' in condition) return unique(condition.any.flatMap(factsOf));
  if ('unless' in condition) return factsOf(condition.unless);
  if ('someSite' in condition) return unique(['complaint_sites', ...factsOf(condition.someSite)]);
  return [factOf(condition)];
}

const unique = <T>(values: readonly T[]): T[] => [...new Set(values)];

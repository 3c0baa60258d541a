import type { Condition } from '../condition.js';

/** A condition with one thing wrong, and what that is. */
export interface Mutant {
  readonly what: string;
  readonly condition: Condition;
}

/**
 * Every way to get one thing wrong: an answer turned, a threshold moved by one or taken exclusively, `all` and `any`
 * swapped, a part, an option or a site left out, `unless` forgotten.
 */
export function mutantsOf(condition: Condition): Mutant[] {
  if ('all' in condition) return mutantsOfGroup('all', condition.all);
  if ('any' in condition) return mutantsOfGroup('any', condition.any);
  if ('unless' in condition) {
    const { unless } = condition;
    return [
      { what: 'unless forgotten', condition: unless },
      ...within(mutantsOf(unless), (inner) => ({ unless: inner })),
    ];
  }
  if ('someSite' in condition) {
    const { someSite, at } = condition;
    return [
      ...within(mutantsOf(someSite), (inner) => (at ? { someSite: inner, at } : { someSite: inner })),
      ...(at ? [{ what: 'at any site', condition: { someSite } }] : []),
      ...(at && at.length > 1 ? at : []).map((site) => ({
        what: `not at ${site}`,
        condition: { someSite, at: (at ?? []).filter((other) => other !== site) },
      })),
    ];
  }
  if ('yes' in condition) return [{ what: `no ${condition.yes}`, condition: { no: condition.yes } }];
  if ('no' in condition) return [{ what: `yes ${condition.no}`, condition: { yes: condition.no } }];
  if ('atLeast' in condition) {
    const { fact, atLeast } = condition;
    return [
      { what: `${fact} above ${atLeast}`, condition: { fact, above: atLeast } },
      { what: `${fact} below ${atLeast}`, condition: { fact, below: atLeast } },
      { what: `${fact} at least ${atLeast - 1}`, condition: { fact, atLeast: atLeast - 1 } },
    ];
  }
  if ('above' in condition) {
    const { fact, above } = condition;
    return [
      { what: `${fact} at least ${above}`, condition: { fact, atLeast: above } },
      { what: `${fact} below ${above}`, condition: { fact, below: above } },
      { what: `${fact} above ${above + 1}`, condition: { fact, above: above + 1 } },
    ];
  }
  if ('below' in condition) {
    const { fact, below } = condition;
    return [
      { what: `${fact} at least ${below}`, condition: { fact, atLeast: below } },
      { what: `${fact} below ${below + 1}`, condition: { fact, below: below + 1 } },
      { what: `${fact} below ${below - 1}`, condition: { fact, below: below - 1 } },
    ];
  }
  const { fact } = condition;
  const [kind, options] =
    'anyOf' in condition ? (['anyOf', condition.anyOf] as const) : (['onlyOf', condition.onlyOf] as const);
  const choice = (own: readonly string[]): Condition =>
    kind === 'anyOf' ? { fact, anyOf: own } : { fact, onlyOf: own };
  return options.map((option) => ({
    what: `${fact} without ${option}`,
    condition: choice(options.filter((other) => other !== option)),
  }));
}

function mutantsOfGroup(kind: 'all' | 'any', parts: readonly Condition[]): Mutant[] {
  const group = (own: readonly Condition[]): Condition => (kind === 'all' ? { all: own } : { any: own });
  return [
    { what: `${kind} swapped`, condition: kind === 'all' ? { any: parts } : { all: parts } },
    ...parts.map((part, left) => ({
      what: `without ${JSON.stringify(part)}`,
      condition: group(parts.filter((_, index) => index !== left)),
    })),
    ...parts.flatMap((part, at) => within(mutantsOf(part), (inner) => group(parts.with(at, inner)))),
  ];
}

const within = (mutants: readonly Mutant[], wrap: (inner: Condition) => Condition): Mutant[] =>
  mutants.map(({ what, condition }) => ({ what, condition: wrap(condition) }));

import { InvalidRequest, type FieldProblem } from '../../http/problem.js';
import { inputProblems } from '../calculations/index.js';
import type { AnyPlanKind } from './plan-kind.js';
import type { SessionFacts, Side } from './facts.js';

type Values = Readonly<Record<string, unknown>>;

/**
 * A calculator's input: what the record knows, and what the fitter adds to it. What is measured is not said otherwise by
 * hand: to correct it, the measurement is corrected.
 *
 * @throws NotMeasuredYet, InvalidRequest naming what is added twice, lacking or of no such shape
 */
export function buildInput(kind: AnyPlanKind, facts: SessionFacts, side: Side | null, added: Values): Values {
  const known: Values = kind.fromRecord(facts, side, Object.keys(added));
  const problems = clashes(known, added);
  if (problems.length > 0) throw new InvalidRequest(problems);
  const inputs = merge(known, added);
  const wrong = inputProblems(kind.calculation, inputs);
  if (wrong.length > 0) {
    throw new InvalidRequest(wrong.map(({ field, message }) => ({ field: `added.${field}`, message })));
  }
  return inputs;
}

const isObject = (value: unknown): value is Values =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

function clashes(known: Values, added: Values, path = 'added'): FieldProblem[] {
  return Object.entries(added).flatMap(([key, value]): FieldProblem[] => {
    if (!Object.hasOwn(known, key)) return [];
    const field = `${path}.${key}`;
    const standing = known[key];
    if (isObject(standing) && isObject(value)) return clashes(standing, value, field);
    return [{ field, message: 'comes from the record of the session' }];
  });
}

function merge(known: Values, added: Values): Values {
  const merged = new Map(Object.entries(known));
  for (const [key, value] of Object.entries(added)) {
    const standing = merged.get(key);
    merged.set(key, isObject(standing) && isObject(value) ? merge(standing, value) : value);
  }
  return Object.fromEntries(merged);
}

import { z } from 'zod';
import { environments } from './config.js';

/** A variable of the environment, for people. */
export interface Variable {
  readonly name: string;
  readonly readBy: readonly string[];
  /** Null where there is none: `required` tells whether it must be given then. */
  readonly standard: string | null;
  readonly required: boolean;
  readonly meaning: string;
}

/**
 * Every variable that any process reads, as the checks know it.
 *
 * @throws Error naming a variable that nobody described
 */
export function configurationReference(): Variable[] {
  const found = new Map<string, Variable>();
  for (const [process, schema] of Object.entries(environments)) {
    const { properties = {}, required = [] } = z.toJSONSchema(schema, {
      io: 'input',
      unrepresentable: 'any',
    });
    for (const [name, property] of Object.entries(properties)) {
      const { description, default: standard } = property as {
        description?: string;
        default?: string | number;
      };
      if (description === undefined) throw new Error(`${name} is not described`);
      const before = found.get(`${name} ${description}`);
      found.set(`${name} ${description}`, {
        name,
        readBy: [...(before?.readBy ?? []), process],
        standard: standard === undefined || standard === '' ? null : String(standard),
        required: required.includes(name),
        meaning: description,
      });
    }
  }
  return [...found.values()];
}

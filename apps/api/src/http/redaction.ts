import type { Type } from '@nestjs/common';
import { DECORATORS } from '@nestjs/swagger';
import { shownTo, type Mark } from '../permissions/permission-table.js';
import type { Grant } from '../permissions/permission.js';
import { markKey } from './marked.js';

interface MarkedField {
  readonly mark: Mark;
  readonly nullable: boolean;
}

/** The fields of an answer that are marked, and those that have such within. */
export type MarkedFields = ReadonlyMap<string, MarkedField | MarkedFields>;

interface Property {
  readonly type?: unknown;
  readonly nullable?: boolean;
  readonly [markKey]?: Mark;
}

/** Read from the class that describes an answer. */
export function markedFieldsOf(type: Type<object>, above: readonly unknown[] = []): MarkedFields {
  const prototype = type.prototype as object;
  const names = (Reflect.getMetadata(DECORATORS.API_MODEL_PROPERTIES_ARRAY, prototype) ?? []) as string[];
  const fields = new Map<string, MarkedField | MarkedFields>();
  for (const name of names.map((key) => key.slice(1))) {
    const property = Reflect.getMetadata(DECORATORS.API_MODEL_PROPERTIES, prototype, name) as Property;
    const mark = property[markKey];
    if (mark !== undefined) {
      fields.set(name, { mark, nullable: property.nullable === true });
      continue;
    }
    const nested = classOf(property.type);
    if (!nested || above.includes(nested)) continue;
    const within = markedFieldsOf(nested, [...above, type]);
    if (within.size > 0) fields.set(name, within);
  }
  return fields;
}

/** The class of a property: itself, or what a function that is none gives, one or a list. */
function classOf(type: unknown): Type<object> | null {
  if (Array.isArray(type)) return classOf(type[0]);
  if (typeof type !== 'function') return null;
  if (type.prototype === undefined) return classOf((type as () => unknown)());
  return Reflect.hasMetadata(DECORATORS.API_MODEL_PROPERTIES_ARRAY, type.prototype as object)
    ? (type as Type<object>)
    : null;
}

export const isShown = (mark: Mark, grants: readonly Grant[]): boolean =>
  shownTo[mark].some((grant) => grants.includes(grant));

export const marksOf = (fields: MarkedFields): Mark[] =>
  [...fields.values()].flatMap((field) => ('mark' in field ? [field.mark] : marksOf(field)));

/** The answer without the fields that are not shown to whoever has these grants. */
export function redacted(answer: unknown, fields: MarkedFields, grants: readonly Grant[]): unknown {
  if (Array.isArray(answer)) return answer.map((item) => redacted(item, fields, grants));
  if (typeof answer !== 'object' || answer === null) return answer;
  return Object.fromEntries(
    Object.entries(answer).flatMap(([name, value]): [string, unknown][] => {
      const field = fields.get(name);
      if (field === undefined) return [[name, value]];
      if (!('mark' in field)) return [[name, redacted(value, field, grants)]];
      if (isShown(field.mark, grants)) return [[name, value]];
      return field.nullable ? [[name, null]] : [];
    }),
  );
}

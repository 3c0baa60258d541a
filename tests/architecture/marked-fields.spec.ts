import { describe, expect, it } from '@jest/globals';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { AppModule } from '../../apps/api/src/app.module.js';
import { answerKey, operationKey } from '../../apps/api/src/http/documentation.js';
import { markedFieldsOf, redacted, type MarkedFields } from '../../apps/api/src/http/redaction.js';
import { permissionOf, shownTo, type OperationId } from '../../apps/api/src/permissions/permission-table.js';
import type { Grant } from '../../apps/api/src/permissions/permission.js';
import { plain, sampleOf, type Schema } from '../helpers/openapi.js';

type Marked = Schema & { 'x-mark'?: keyof typeof shownTo; properties?: Record<string, Marked> };

const document = JSON.parse(
  readFileSync(path.join(import.meta.dirname, '../../libs/api-client/openapi.json'), 'utf8'),
) as {
  paths: Record<
    string,
    Record<
      string,
      {
        operationId: OperationId;
        responses: Record<string, { content?: Record<string, { schema: Schema }> }>;
      }
    >
  >;
};

/** What an operation answers with when it succeeds, where that is JSON. */
const answers = new Map(
  Object.values(document.paths)
    .flatMap((item) => Object.values(item))
    .flatMap(({ operationId, responses }) => {
      const success = Object.entries(responses).find(([status]) => status.startsWith('2'))?.[1];
      const schema = success?.content?.['application/json']?.schema;
      return schema ? [[operationId, schema] as const] : [];
    }),
);

/** The marked fields of a schema with their paths, and whether an answer without them is still one. */
function markedIn(
  given: Schema,
  at = '',
  above: readonly Schema[] = [],
): { path: string; mark: string; mayBeMissing: boolean }[] {
  const schema = plain(given) as Marked;
  if (above.includes(schema)) return [];
  const within = [...above, schema];
  if (schema.items) return markedIn(schema.items, at, within);
  return Object.entries(schema.properties ?? {}).flatMap(([name, property]) => {
    const mark = property['x-mark'];
    if (mark === undefined) return markedIn(property, `${at}.${name}`, within);
    const nullable = [property.type].flat().includes('null') || property.anyOf !== undefined;
    return [{ path: `${at}.${name}`, mark, mayBeMissing: nullable || !schema.required?.includes(name) }];
  });
}

const pathsOf = (fields: MarkedFields, at = ''): string[] =>
  [...fields].flatMap(([name, field]) =>
    'mark' in field ? [`${at}.${name}`] : pathsOf(field, `${at}.${name}`),
  );

/** What the API reads of each operation's answer, from the routes themselves. */
const fieldsOf = new Map<string, MarkedFields>();
for (const module of Reflect.getMetadata('imports', AppModule) as object[]) {
  for (const { prototype } of (Reflect.getMetadata('controllers', module) ?? []) as { prototype: object }[]) {
    for (const handler of Object.values(Object.getOwnPropertyDescriptors(prototype))) {
      const route = handler.value as object;
      const type = Reflect.getMetadata(answerKey, route) as Parameters<typeof markedFieldsOf>[0] | undefined;
      if (type) fieldsOf.set(Reflect.getMetadata(operationKey, route) as string, markedFieldsOf(type));
    }
  }
}

/** Whether a path of marked fields leads to anything in an answer. */
function holds(answer: unknown, [name, ...rest]: readonly string[]): boolean {
  if (Array.isArray(answer)) return answer.some((item) => holds(item, [name ?? '', ...rest]));
  if (typeof answer !== 'object' || answer === null || name === undefined) return false;
  const value = (answer as Record<string, unknown>)[name];
  if (rest.length > 0) return holds(value, rest);
  return value !== undefined && value !== null;
}
const stepsOf = (marked: string): string[] => marked.split('.').slice(1);

/** The fullest answer the document allows, as somebody with these grants gets it; the marked fields left in it. */
function leftFor(id: OperationId, grants: readonly Grant[]): string[] {
  const schema = answers.get(id) as Schema;
  const answer = redacted(sampleOf(schema, {}, '', true), fieldsOf.get(id) ?? new Map(), grants);
  return markedIn(schema)
    .filter(
      ({ mark }) => !shownTo[mark as keyof typeof shownTo].some((grant: Grant) => grants.includes(grant)),
    )
    .filter((field) => holds(answer, stepsOf(field.path)))
    .map((field) => `${id}${field.path}`);
}

const withMarks = [...answers].filter(([, schema]) => markedIn(schema).length > 0).map(([id]) => id);

describe('marked fields', () => {
  it('are seen by the API where the document shows them', () => {
    expect(withMarks.length).toBeGreaterThan(25);
    for (const id of withMarks) {
      const shown = markedIn(answers.get(id) as Schema).map((field) => field.path);
      expect([id, pathsOf(fieldsOf.get(id) ?? new Map()).sort()]).toEqual([id, shown.sort()]);
    }
  });

  it('may be missing wherever somebody who may ask is not shown them', () => {
    const stiff = withMarks.flatMap((id) => {
      const { who } = permissionOf(id);
      return markedIn(answers.get(id) as Schema)
        .filter(({ mark, mayBeMissing }) => {
          const shown: readonly Grant[] = shownTo[mark as keyof typeof shownTo];
          return !mayBeMissing && (who === 'anyone' || who.some((grant) => !shown.includes(grant)));
        })
        .map((field) => `${id}${field.path}`);
    });
    expect(stiff).toEqual([]);
  });

  it('reach nobody who is not shown them: no medical text the front desk, no score a fitter or owner', () => {
    const grantsAlone = ['owner', 'fitter', 'front_desk', 'clinician'] as const;
    const reached = [...answers.keys()].flatMap((id) => {
      const { who } = permissionOf(id);
      if (who === 'anyone') return leftFor(id, []);
      return grantsAlone.filter((grant) => who.includes(grant)).flatMap((grant) => leftFor(id, [grant]));
    });
    expect(reached).toEqual([]);
  });

  it('would not reach the front desk were every operation opened to it', () => {
    expect(withMarks.flatMap((id) => leftFor(id, ['front_desk']))).toEqual([]);
    // And there was something to leave out.
    const everything = (id: OperationId) =>
      markedIn(answers.get(id) as Schema).filter(({ mark }) => mark === 'medical');
    expect(withMarks.flatMap(everything).length).toBeGreaterThan(40);
    expect(leftFor('getScreening', ['fitter'])).toEqual([]);
    expect(holds(sampleOf(answers.get('getScreening') as Schema, {}, '', true), ['findings'])).toBe(true);
  });
});

import type { OpenAPIObject } from '@nestjs/swagger';
import type { OperationId } from '../../permissions/permission-table.js';
import { calculations, type CalculationName } from './calculations.js';
import { calculationsSchema } from './calculations.schema.js';
import { workedExamples } from './worked-examples.js';

type Schemas = NonNullable<NonNullable<OpenAPIObject['components']>['schemas']>;

/** `cleat-plans` → `calculateCleatPlans`. */
export const operationIdOf = (name: CalculationName): OperationId =>
  `calculate${`-${name}`.replace(/-(\w)/g, (_, letter: string) => letter.toUpperCase())}` as OperationId;

/** Puts what the calculators take and answer into the document, each with a worked example. */
export function describeCalculations(document: OpenAPIObject): void {
  const { properties, definitions } = inDocument(calculationsSchema);
  Object.assign((document.components ??= {}), {
    schemas: { ...document.components.schemas, ...definitions },
  });
  for (const name of Object.keys(calculations) as CalculationName[]) {
    const operation = document.paths[`/v1/calculations/${name}`]?.post;
    if (!operation) throw new Error(`no route for ${name}`);
    const { input, result } = (properties[name] as { properties: { input: object; result: object } })
      .properties;
    operation.requestBody = {
      required: true,
      content: { 'application/json': { schema: input, example: workedExamples[name] } },
    };
    operation.responses['200'] = {
      description: 'Done.',
      content: { 'application/json': { schema: result, example: readable(worked(name)) } },
    };
  }
}

/** The result of the worked example; numbers to six digits, as one reads them. */
const worked = (name: CalculationName): unknown => calculations[name](workedExamples[name] as never);
const readable = (result: unknown): unknown =>
  JSON.parse(
    JSON.stringify(result, (_, value: unknown) => (typeof value === 'number' ? sixDigits(value) : value)),
  );

/** What is left of rounding in the last bits is nothing. */
const sixDigits = (value: number): number => (Math.abs(value) < 1e-9 ? 0 : Number(value.toPrecision(6)));

function inDocument(schema: typeof calculationsSchema): {
  properties: Record<CalculationName, object>;
  definitions: Schemas;
} {
  const text = JSON.stringify(schema).replaceAll('#/definitions/', '#/components/schemas/');
  return JSON.parse(text) as { properties: Record<CalculationName, object>; definitions: Schemas };
}

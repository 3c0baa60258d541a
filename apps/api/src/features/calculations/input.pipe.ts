import { Injectable, type PipeTransform } from '@nestjs/common';
import { Ajv, type ErrorObject, type ValidateFunction } from 'ajv';
import { InvalidRequest, type FieldProblem } from '../../http/problem.js';
import type { CalculationName } from './calculations.js';
import { calculationsSchema } from './calculations.schema.js';

const ajv = new Ajv({ allErrors: true, strictTypes: false }).addSchema(calculationsSchema, 'calculations');

const validators = new Map<CalculationName, ValidateFunction>();

/** What an input has that is not of the shape a calculator takes; ranges are the calculator's own to check. */
export function inputProblems(name: CalculationName, input: unknown): FieldProblem[] {
  const known = validators.get(name);
  const validate = known ?? ajv.compile({ $ref: `calculations#/properties/${name}/properties/input` });
  if (!known) validators.set(name, validate);
  return validate(input) ? [] : fieldProblems(validate.errors ?? []);
}

@Injectable()
export class InputPipe implements PipeTransform<unknown, unknown> {
  constructor(private readonly name: CalculationName) {}

  transform(body: unknown): unknown {
    const problems = inputProblems(this.name, body);
    if (problems.length > 0) throw new InvalidRequest(problems);
    return body;
  }
}

/** Of a value that has none of several forms only that is told, not what each form would have asked. */
function fieldProblems(errors: readonly ErrorObject[]): FieldProblem[] {
  const choices = errors.filter(({ keyword }) => keyword === 'anyOf').map(({ instancePath }) => instancePath);
  return errors
    .filter(
      ({ keyword, instancePath }) =>
        keyword === 'anyOf' || !choices.some((choice) => instancePath.startsWith(choice)),
    )
    .map((error) => ({ field: fieldOf(error), message: messageOf(error) }));
}

function fieldOf({ instancePath, params }: ErrorObject): string {
  const { missingProperty, additionalProperty } = params as Record<string, string | undefined>;
  const last = missingProperty ?? additionalProperty;
  return [...instancePath.split('/').slice(1), ...(last === undefined ? [] : [last])].join('.');
}

function messageOf({ keyword, message, params }: ErrorObject): string {
  switch (keyword) {
    case 'required':
      return 'is missing';
    case 'additionalProperties':
      return 'is not known';
    case 'anyOf':
      return 'has none of the forms described';
    case 'enum':
      return `must be one of ${(params as { allowedValues: readonly string[] }).allowedValues.join(', ')}`;
    default:
      return message ?? 'is not valid';
  }
}

import { Injectable, type PipeTransform } from '@nestjs/common';
import { Ajv, type ErrorObject, type ValidateFunction } from 'ajv';
import { InvalidRequest, type FieldProblem } from '../../http/problem.js';
import type { CalculationName } from './calculations.js';
import { calculationsSchema } from './calculations.schema.js';

const ajv = new Ajv({ allErrors: true, strictTypes: false }).addSchema(calculationsSchema, 'calculations');

/** Lets a body through that has the shape a calculator takes. Ranges are the calculator's own to check. */
@Injectable()
export class InputPipe implements PipeTransform<unknown, unknown> {
  private validate: ValidateFunction | undefined;

  constructor(private readonly name: CalculationName) {}

  transform(body: unknown): unknown {
    this.validate ??= ajv.compile({ $ref: `calculations#/properties/${this.name}/properties/input` });
    if (!this.validate(body)) throw new InvalidRequest(fieldProblems(this.validate.errors ?? []));
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
      return 'should not exist';
    case 'anyOf':
      return 'has none of the forms described';
    case 'enum':
      return `must be one of ${(params as { allowedValues: readonly string[] }).allowedValues.join(', ')}`;
    default:
      return message ?? 'is not valid';
  }
}

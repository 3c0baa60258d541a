import { ParseUUIDPipe, ValidationPipe } from '@nestjs/common';
import type { ValidationError } from 'class-validator';
import { InvalidRequest, NotFound, type FieldProblem } from './problem.js';
import { rememberRules } from './remembered-rules.js';

rememberRules();

/** Bodies and queries: unknown fields are refused, every problem names its field. */
export const validationPipe = (): ValidationPipe =>
  new ValidationPipe({
    transform: true,
    whitelist: true,
    forbidNonWhitelisted: true,
    stopAtFirstError: true,
    forbidUnknownValues: true,
    validationError: { target: false, value: false },
    exceptionFactory: (errors) => new InvalidRequest(errors.flatMap((error) => fieldProblems(error))),
  });

/** Each problem with the path of its field. */
export function fieldProblems(error: ValidationError, prefix = ''): FieldProblem[] {
  const field = `${prefix}${error.property}`;
  const own = Object.entries(error.constraints ?? {}).map(([rule, message]) => ({
    field,
    message: rule === 'whitelistValidation' ? 'is not known' : withoutName(message, error.property),
  }));
  return [...own, ...(error.children ?? []).flatMap((child) => fieldProblems(child, `${field}.`))];
}

/** class-validator begins its messages with the property's name; `field` says it already. */
const withoutName = (message: string, property: string): string =>
  message.startsWith(`${property} `) ? message.slice(property.length + 1) : message;

/** A path id that is no UUID names no record. */
export const idPipe = new ParseUUIDPipe({ exceptionFactory: () => new NotFound() });

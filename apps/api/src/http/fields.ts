import { applyDecorators } from '@nestjs/common';
import { ApiProperty, type ApiPropertyOptions } from '@nestjs/swagger';
import { Transform, Type } from 'class-transformer';
import {
  IsBoolean,
  IsEmail,
  IsInt,
  IsOptional,
  IsUUID,
  Matches,
  MaxLength,
  ValidateBy,
  ValidateIf,
  ValidateNested,
} from 'class-validator';
import {
  asked,
  atLeast,
  atMost,
  eachOnce,
  isNumber,
  isObject,
  isText,
  listOf,
  oneOf,
  onTheCalendar,
  textLength,
} from './checks.js';

/**
 * One decorator a field: how it is checked on the way in and how the OpenAPI document describes it. A field is
 * required unless it says `optional`; `nullable` lets null through.
 */
export interface FieldOptions {
  readonly description?: string;
  readonly example?: unknown;
  readonly optional?: boolean;
  readonly nullable?: boolean;
}

type Check = PropertyDecorator;

function field(options: FieldOptions, schema: ApiPropertyOptions, ...checks: Check[]): Check {
  const { description, example, optional = false, nullable = false } = options;
  const api = {
    ...schema,
    ...(description !== undefined && { description }),
    ...(example !== undefined && { example }),
    ...(nullable && { nullable }),
    required: !optional,
  } as ApiPropertyOptions;
  return applyDecorators(ApiProperty(api), ...checks, ...leftOut(optional, nullable));
}

/** Null stands only where it is allowed: an optional field may be absent, not empty. */
function leftOut(optional: boolean, nullable: boolean): Check[] {
  if (nullable) return [IsOptional()];
  return optional ? [ValidateIf((_, value: unknown) => value !== undefined)] : [];
}

const trimmed = Transform(({ value }: { value: unknown }) =>
  typeof value === 'string' ? value.trim() : value,
);

export function TextField(options: FieldOptions & { min?: number; max?: number } = {}): Check {
  const { min = 1, max = 200 } = options;
  return field(
    options,
    { type: String, minLength: min, maxLength: max },
    trimmed,
    isText(),
    textLength(min, max),
    // PostgreSQL's text cannot hold NUL.
    // oxlint-disable-next-line no-control-regex
    Matches(/^[^\u0000]*$/, { message: 'must not contain the NUL character' }),
  );
}

export function EmailField(options: FieldOptions = {}): Check {
  const lower = Transform(({ value }: { value: unknown }) =>
    typeof value === 'string' ? value.trim().toLowerCase() : value,
  );
  return field(
    options,
    { type: String, format: 'email', maxLength: 254 },
    lower,
    IsEmail({}, { message: asked('must be a mail address') }),
    textLength(3, 254),
  );
}

/** A language tag (BCP 47), like `de` or `de-AT`. */
export function LanguageField(options: FieldOptions = {}): Check {
  return field(
    { example: 'de', ...options },
    { type: String, maxLength: 35 },
    isText(),
    textLength(1, 35),
    Matches(/^[a-z]{2,3}(-[A-Za-z0-9]{2,8})*$/, { message: 'must be a language tag, like de or de-AT' }),
  );
}

export function UuidField(options: FieldOptions = {}): Check {
  return field(
    options,
    { type: String, format: 'uuid' },
    IsUUID('all', { message: asked('must be a UUID') }),
  );
}

/** An id its sender made (RFC 9562, version 7: it begins with the time). */
export function OwnIdField(options: FieldOptions = {}): Check {
  return field(
    options,
    { type: String, format: 'uuid' },
    IsUUID('7', { message: 'must be a UUID of version 7' }),
  );
}

export function EnumField(values: readonly string[], options: FieldOptions = {}): Check {
  return field(options, { type: String, enum: [...values] }, oneOf(values));
}

export function IntField(options: FieldOptions & { min: number; max: number }): Check {
  const { min, max } = options;
  return field(
    options,
    { type: 'integer', minimum: min, maximum: max },
    IsInt({ message: asked('must be a whole number') }),
    atLeast(min),
    atMost(max),
  );
}

export function NumberField(options: FieldOptions & { min: number; max: number }): Check {
  const { min, max } = options;
  return field(options, { type: Number, minimum: min, maximum: max }, isNumber(), atLeast(min), atMost(max));
}

export function BooleanField(options: FieldOptions = {}): Check {
  return field(options, { type: Boolean }, IsBoolean({ message: asked('must be true or false') }));
}

/** An instant with its offset (RFC 3339). */
export function InstantField(options: FieldOptions = {}): Check {
  return field(
    { example: '2026-03-02T09:00:00Z', ...options },
    { type: String, format: 'date-time' },
    Matches(
      /^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])T([01]\d|2[0-3]):[0-5]\d(:[0-5]\d(\.\d{1,3})?)?(Z|[+-](0\d|1[0-4]):[0-5]\d)$/,
      {
        message: asked('must be an instant with an offset, like 2026-03-02T09:00:00Z'),
      },
    ),
    onTheCalendar('must be on a day the calendar has'),
  );
}

/** A calendar day, like 1984-02-29. */
export function DayField(options: FieldOptions = {}): Check {
  return field(
    { example: '1984-02-29', ...options },
    { type: String, format: 'date' },
    Matches(/^(19|20)\d{2}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$/, {
      message: asked('must be a day, like 1984-02-29'),
    }),
    onTheCalendar('must be a day the calendar has'),
  );
}

export function NestedField(type: () => new () => object, options: FieldOptions = {}): Check {
  // The document generator loses the name of a lazy type that may be null or is in a list: so types are declared first.
  return field(options, { type: type() }, Type(type), isObject(), ValidateNested());
}

export function NestedListField(
  type: () => new () => object,
  options: FieldOptions & { min?: number; max: number },
): Check {
  const { min = 0, max } = options;
  return field(
    options,
    { type: [type()], minItems: min, maxItems: max },
    Type(type),
    ...listOf(min, max),
    ValidateNested({ each: true }),
  );
}

export function NumberListField(
  options: FieldOptions & { minItems: number; maxItems: number; min: number; max: number },
): Check {
  const { minItems, maxItems, min, max } = options;
  return field(
    options,
    { type: [Number], minItems, maxItems },
    ...listOf(minItems, maxItems),
    isNumber(true),
    atLeast(min, true),
    atMost(max, true),
  );
}

/** Ids of records, each once. */
export function UuidListField(options: FieldOptions & { max: number }): Check {
  const { max } = options;
  return field(
    options,
    { type: 'array', items: { type: 'string', format: 'uuid' }, maxItems: max },
    ...listOf(0, max),
    IsUUID('all', { each: true, message: 'must be UUIDs' }),
    eachOnce(),
  );
}

export function EnumListField(
  values: readonly string[],
  options: FieldOptions & { min?: number } = {},
): Check {
  const { min = 1 } = options;
  return field(
    options,
    { type: String, enum: [...values], isArray: true, minItems: min },
    ...listOf(min, values.length),
    oneOf(values, true),
  );
}

/** Short names that two lists are compared by, such as skills: lower case, words joined by `_`. */
export function WordListField(options: FieldOptions & { max: number }): Check {
  const { max } = options;
  return field(
    options,
    { type: [String], maxItems: max },
    ...listOf(0, max),
    isText(true),
    MaxLength(40, { each: true, message: 'must be words of at most 40 characters' }),
    Matches(/^[a-z0-9]+(_[a-z0-9]+)*$/, { each: true, message: 'must be words like cleat_fitting' }),
    eachOnce(),
  );
}

/** Numbers, or texts that say a number and its unit; the feature reads the texts. */
export function ReadingListField(options: FieldOptions & { maxItems: number }): Check {
  const { maxItems } = options;
  const reading = ValidateBy(
    {
      name: 'reading',
      validator: {
        validate: (value: unknown) =>
          typeof value === 'number'
            ? Math.abs(value) <= 10_000
            : typeof value === 'string' && value.length <= 40,
        defaultMessage: () => 'must be numbers up to 10000 or texts of up to 40 characters',
      },
    },
    { each: true },
  );
  return field(
    options,
    {
      type: 'array',
      items: { oneOf: [{ type: 'number' }, { type: 'string', maxLength: 40 }] },
      minItems: 1,
      maxItems,
    },
    ...listOf(1, maxItems),
    reading,
  );
}

/** A map whose keys are checked by the feature itself. */
export function MapField(options: FieldOptions = {}): Check {
  return field(options, { type: 'object', additionalProperties: true }, isObject());
}

/** A whole number in the query string. */
export function QueryIntField(options: FieldOptions & { min: number; max: number }): Check {
  const number = Transform(({ value }: { value: unknown }) =>
    typeof value === 'string' && /^-?\d{1,15}$/.test(value) ? Number(value) : value,
  );
  return applyDecorators(number, IntField(options));
}

import { applyDecorators } from '@nestjs/common';
import { minorUnitDigits, taxRateForm } from '@studio/money';
import { Matches, ValidateBy } from 'class-validator';
import { IntField, TextField, type FieldOptions } from './fields.js';

/** The most one price or payment may be, in minor units; a hundred lines of it are still exact. */
export const mostMinor = 99_999_999_999;

const isCurrency = ValidateBy({
  name: 'isCurrency',
  validator: {
    validate: (value: unknown) => typeof value === 'string' && minorUnitDigits(value) !== null,
    defaultMessage: () => 'must be a currency of ISO 4217, like EUR',
  },
});

export const CurrencyField = (options: FieldOptions = {}): PropertyDecorator =>
  applyDecorators(
    isCurrency,
    TextField({ min: 3, max: 3, description: 'ISO 4217.', example: 'DKK', ...options }),
  );

export const MinorField = (options: FieldOptions & { min?: number } = {}): PropertyDecorator =>
  IntField({
    min: 0,
    max: mostMinor,
    description: "Whole number of the currency's minor unit.",
    example: 129_500,
    ...options,
  });

export const PercentField = (options: FieldOptions = {}): PropertyDecorator =>
  applyDecorators(
    Matches(taxRateForm, { message: 'must be percent like 25 or 8.1' }),
    TextField({ max: 6, description: 'Percent.', example: '25', ...options }),
  );

/** One word a class of tax is known by in the studio, like `standard` or `reduced`. */
export const TaxClassField = (options: FieldOptions = {}): PropertyDecorator =>
  applyDecorators(
    Matches(/^[a-z0-9]+(_[a-z0-9]+)*$/, { message: 'must be words like standard or zero_rated' }),
    TextField({
      max: 40,
      description: 'A class of the studio’s tax rates.',
      example: 'standard',
      ...options,
    }),
  );

import {
  ArrayMaxSize,
  ArrayMinSize,
  ArrayUnique,
  IsArray,
  IsIn,
  IsNumber,
  IsObject,
  IsString,
  Length,
  Max,
  Min,
  ValidateBy,
  type ValidationArguments,
} from 'class-validator';

// class-validator's checks in plain words. The first that fails is told, so the form comes before the bounds.

type Check = PropertyDecorator;

/** What is asked, unless there is nothing. */
export const asked =
  (message: string) =>
  ({ value }: ValidationArguments): string =>
    value === undefined ? 'is missing' : message;

export const isText = (each = false): Check =>
  IsString({ each, message: asked(each ? 'must be texts' : 'must be a text') });
export const isNumber = (each = false): Check =>
  IsNumber(
    { allowNaN: false, allowInfinity: false },
    { each, message: asked(each ? 'must be numbers' : 'must be a number') },
  );
export const isObject = (): Check => IsObject({ message: asked('must be an object') });
export const atLeast = (least: number, each = false): Check =>
  Min(least, { each, message: `must be at least ${String(least)}` });
export const atMost = (most: number, each = false): Check =>
  Max(most, { each, message: `must be at most ${String(most)}` });
export const oneOf = (values: readonly string[], each = false): Check =>
  IsIn(values, { each, message: asked(`must be ${each ? 'some' : 'one'} of ${values.join(', ')}`) });
export const eachOnce = (): Check => ArrayUnique({ message: 'must not hold anything twice' });

const lengthOf = (value: unknown): number => (typeof value === 'string' ? value.length : 0);

export const textLength = (least: number, most: number): Check =>
  Length(least, most, {
    message: ({ value }) => {
      if (lengthOf(value) === 0) return 'must not be empty';
      if (least === most) return `must have ${String(least)} characters`;
      return lengthOf(value) < least
        ? `must have at least ${String(least)} characters`
        : `must have at most ${String(most)} characters`;
    },
  });

export const listOf = (least: number, most: number): Check[] => [
  IsArray({ message: asked('must be a list') }),
  ArrayMinSize(least, { message: least === 1 ? 'must not be empty' : `must hold at least ${String(least)}` }),
  ArrayMaxSize(most, { message: `must hold at most ${String(most)}` }),
];

/** The calendar has the day that a text of the right form begins with. */
export const onTheCalendar = (message: string): Check =>
  ValidateBy({
    name: 'onTheCalendar',
    validator: {
      validate: (value: unknown) => {
        const [, year, month, day] = /^(\d{4})-(\d{2})-(\d{2})/.exec(String(value)) ?? [];
        const date = new Date(Date.UTC(Number(year), Number(month) - 1, Number(day)));
        return date.getUTCMonth() === Number(month) - 1 && date.getUTCDate() === Number(day);
      },
      defaultMessage: () => message,
    },
  });

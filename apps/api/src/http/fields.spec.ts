import 'reflect-metadata';
import { describe, expect, it } from '@jest/globals';
import { DayField, EnumField, InstantField, IntField, NestedListField, TextField } from './fields.js';
import type { InvalidRequest } from './problem.js';
import { validationPipe } from './validation.pipe.js';

class Part {
  @IntField({ min: 1, max: 5 })
  count: number;
}

class Body {
  @TextField({ max: 5 })
  text: string;

  @InstantField()
  until: string;

  @DayField()
  on: string;

  @EnumField(['left', 'right'])
  side: string;

  @NestedListField(() => Part, { min: 1, max: 2 })
  parts: Part[];
}

const right = {
  ...{ text: 'words', until: '2026-03-02T09:00:00Z', on: '2026-03-02', side: 'left' },
  parts: [{ count: 1 }],
};

async function told(body: object): Promise<readonly string[]> {
  const checking = validationPipe().transform(body, { type: 'body', metatype: Body }) as Promise<unknown>;
  return checking.then(
    () => [],
    (error: unknown) => (error as InvalidRequest).errors.map(({ field, message }) => `${field} ${message}`),
  );
}

describe('what a field asks for', () => {
  it('is not told of what is right', async () => {
    expect(await told(right)).toEqual([]);
  });

  it('is told of what is left out as what it is', async () => {
    const { parts: _, ...others } = right;
    expect(await told({ ...others, until: undefined })).toEqual(['until is missing', 'parts is missing']);
  });

  it.each([
    [{ text: '  ' }, 'text must not be empty'],
    [{ text: 'too long' }, 'text must have at most 5 characters'],
    [{ text: 1 }, 'text must be a text'],
    [{ until: 'tomorrow' }, 'until must be an instant with an offset, like 2026-03-02T09:00:00Z'],
    [{ until: '2026-02-30T09:00:00Z' }, 'until must be on a day the calendar has'],
    [{ on: 'today' }, 'on must be a day, like 1984-02-29'],
    [{ on: '2026-02-30' }, 'on must be a day the calendar has'],
    [{ side: 'top' }, 'side must be one of left, right'],
    [{ parts: [] }, 'parts must not be empty'],
    [{ parts: Array(3).fill({ count: 1 }) }, 'parts must hold at most 2'],
    [{ parts: [{ count: 'many' }] }, 'parts.0.count must be a whole number'],
    [{ parts: [{ count: 0 }] }, 'parts.0.count must be at least 1'],
    [{ more: 1 }, 'more is not known'],
  ])('is told in plain words of %j', async (wrong, message) => {
    expect(await told({ ...right, ...wrong })).toEqual([message]);
  });
});

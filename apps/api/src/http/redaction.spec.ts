import { expect, it } from '@jest/globals';
import { ApiProperty } from '@nestjs/swagger';
import { Marked } from './marked.js';
import { markedFieldsOf, redacted } from './redaction.js';

class Line {
  @ApiProperty()
  id: string;

  @Marked('medical')
  @ApiProperty({ type: String, nullable: true })
  remark: string | null;

  @Marked('clinician')
  @ApiProperty({ required: false })
  score?: number;
}

class Page {
  @ApiProperty({ type: [Line] })
  items: Line[];

  @ApiProperty({ type: () => Line })
  first: Line;

  @ApiProperty()
  next: string;
}

const fields = markedFieldsOf(Page);
const line = { id: 'a', remark: 'a swollen leg', score: 3 };
const page = { items: [line], first: line, next: 'a' };

it('leaves fields out wherever they lie, or null where the field may be null', () => {
  const bare = { id: 'a', remark: null };
  expect(redacted(page, fields, ['front_desk'])).toEqual({ items: [bare], first: bare, next: 'a' });
  expect(redacted([page], fields, [])).toEqual([{ items: [bare], first: bare, next: 'a' }]);
});

it('leaves in what the reader is shown', () => {
  const { score: _, ...withoutScore } = line;
  expect(redacted(page, fields, ['fitter'])).toEqual({
    items: [withoutScore],
    first: withoutScore,
    next: 'a',
  });
  expect(redacted(page, fields, ['fitter', 'clinician'])).toEqual(page);
});

it('knows nothing marked in what is not described', () => {
  expect(markedFieldsOf(Date).size).toBe(0);
  expect(redacted(null, fields, [])).toBeNull();
  expect(redacted('text', fields, [])).toBe('text');
});

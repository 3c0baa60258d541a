import { QueryIntField, UuidField } from './fields.js';

export const longestPage = 200;

/** Where a list begins that continues after nothing. */
export const beforeEveryId = '00000000-0000-0000-0000-000000000000';

/** Lists run by id (UUIDv7, so by time of writing) and stay stable while rows are added. */
export class PageQuery {
  @UuidField({ optional: true, description: 'Continue after this id: `next` of the page before.' })
  after?: string;

  @QueryIntField({
    optional: true,
    min: 1,
    max: longestPage,
    description: 'Rows a page (50 when absent).',
    example: 50,
  })
  limit?: number;
}

export const pageSize = (query: PageQuery): number => query.limit ?? 50;

/** Ask for one row more than `limit`; that row only tells that there is a next page. */
export function pageOf<Row extends { id: string }>(
  rows: Row[],
  limit: number,
): { items: Row[]; next: string | null } {
  const items = rows.slice(0, limit);
  return { items, next: rows.length > limit ? (items.at(-1)?.id ?? null) : null };
}

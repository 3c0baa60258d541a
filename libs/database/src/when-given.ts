/**
 * A condition of a list that holds only when its value is given. Left as `$2 IS NULL OR id > $2`, no index could serve it once
 * PostgreSQL plans the statement for all values alike, which it does with prepared ones (PREPARE, "Notes"): a later page
 * would read every row before it.
 *
 * @param value null when it is not given
 * @param parameter the value's place, with its type
 * @example whenGiven(page.after, '$2::uuid', 'id > $2')
 */
export const whenGiven = (
  value: string | null | undefined,
  parameter: `$${number}::${string}`,
  condition: string,
): string => ((value ?? null) === null ? `${parameter} IS NULL` : condition);

/** Counts and results of fewer people than this do not leave the house. Common practice in statistics, no source. */
export const fewestShown = 5;

/**
 * Which of several counts that add up to a total shown elsewhere may be shown: none from 1 to 4, and never all but
 * one, since that one could be worked out.
 *
 * @returns the counts, null where hidden
 * @example hideSmallCounts([9, 2, 0, 7]); // [9, null, 0, null]
 */
export function hideSmallCounts(counts: readonly number[]): (number | null)[] {
  const hidden = counts.map((count) => count > 0 && count < fewestShown);
  if (hidden.filter(Boolean).length === 1) {
    const shown = counts.flatMap((count, index) => (hidden[index] === true ? [] : [{ count, index }]));
    const next =
      shown.filter(({ count }) => count > 0).sort((one, other) => one.count - other.count)[0] ?? shown[0];
    if (next) hidden[next.index] = true;
  }
  return counts.map((count, index) => (hidden[index] === true ? null : count));
}

/**
 * The same for a table whose every row and column adds up to one of its own cells: small counts are hidden, and then
 * others, the smallest first, until no row and no column has a single hidden cell that the rest of it would tell.
 *
 * @returns the table, null where hidden
 */
export function hideSmallCells(table: readonly (readonly number[])[]): (number | null)[][] {
  const cells = table.flatMap((row, y) =>
    row.map((count, x) => ({ count, x, y, hidden: count > 0 && count < fewestShown })),
  );
  const lines = [
    ...table.map((_, y) => cells.filter((cell) => cell.y === y)),
    ...(table[0] ?? []).map((_, x) => cells.filter((cell) => cell.x === x)),
  ];
  const told = () => lines.find((line) => line.filter(({ hidden }) => hidden).length === 1);
  for (let line = told(); line !== undefined; line = told()) {
    const shown = line.filter(({ hidden }) => !hidden).sort((one, other) => one.count - other.count);
    const next = shown.find(({ count }) => count > 0) ?? shown[0];
    if (!next) break;
    next.hidden = true;
  }
  return table.map((_, y) =>
    cells.filter((cell) => cell.y === y).map(({ count, hidden }) => (hidden ? null : count)),
  );
}

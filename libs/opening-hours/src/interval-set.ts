/** Half-open, in milliseconds since the epoch: one ends where the next may begin. */
export interface Interval {
  readonly start: number;
  readonly end: number;
}

/** Sorted, apart from one another (neighbours that touch are one), none empty. */
export type IntervalSet = readonly Interval[];

/** Bring intervals of any order, overlapping or empty, into the form of a set. */
export function union(intervals: readonly Interval[]): IntervalSet {
  const sorted = intervals.filter(({ start, end }) => start < end).sort((a, b) => a.start - b.start);
  const set: { start: number; end: number }[] = [];
  for (const { start, end } of sorted) {
    const last = set.at(-1);
    if (last && start <= last.end) last.end = Math.max(last.end, end);
    else set.push({ start, end });
  }
  return set;
}

export function intersection(left: IntervalSet, right: IntervalSet): IntervalSet {
  const set: Interval[] = [];
  let i = 0;
  let j = 0;
  for (let a = left[i], b = right[j]; a && b; a = left[i], b = right[j]) {
    const start = Math.max(a.start, b.start);
    const end = Math.min(a.end, b.end);
    if (start < end) set.push({ start, end });
    if (a.end < b.end) i += 1;
    else j += 1;
  }
  return set;
}

/** What of `left` is not in `right`. */
export function difference(left: IntervalSet, right: IntervalSet): IntervalSet {
  const set: Interval[] = [];
  let j = 0;
  for (const { start, end } of left) {
    let from = start;
    for (let b = right[j]; b && b.start < end; b = right[j]) {
      if (b.start > from) set.push({ start: from, end: b.start });
      from = Math.max(from, b.end);
      // The one that reaches beyond this interval may cut the next one too.
      if (b.end > end) break;
      j += 1;
    }
    if (from < end) set.push({ start: from, end });
  }
  return set;
}

export function covers(set: IntervalSet, { start, end }: Interval): boolean {
  return set.some((interval) => interval.start <= start && end <= interval.end);
}

/** The longest that a visit with what cures after it, or shoe work, may take: constraints hold both to it. */
const longest = `interval '31 days'`;

/**
 * SQL for what takes time of a fitter, a room or a bench between two instants, to stand before `&&`: under row-level security no
 * index serves the operators of ranges, which are not leakproof. What begins too early to last until then is not looked at.
 *
 * @param from SQL of an instant
 * @param to the same; null for ever after
 * @param record alias of a visit or of shoe work, with a dot
 */
export const takenWithin = (from: string, to: string | null, record = ''): string =>
  [
    `${record}taken_from > ${from}::timestamptz - ${longest}`,
    ...(to === null ? [] : [`${record}taken_from < ${to}`]),
    `${record}taken_until > ${from}`,
  ].join(' AND ');

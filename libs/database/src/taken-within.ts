/**
 * SQL for what takes time of a fitter, a room or a bench between two instants, to stand before `&&`: under row-level security no
 * index serves the operators of ranges, which are not leakproof.
 *
 * @param from SQL of an instant, as are `to` and what is compared
 * @param record alias of a visit or of shoe work, with a dot
 */
export const takenWithin = (from: string, to: string, record = ''): string =>
  `${record}taken_until > ${from} AND ${record}taken_from < ${to}`;

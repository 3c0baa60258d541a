// Names that nobody has, and enough of them that a search finds few.

const syllables = [
  ...['an', 'bel', 'cor', 'dan', 'el', 'fir', 'gal', 'hol', 'is', 'jun', 'kel', 'lor', 'mar', 'nor'],
  ...['os', 'per', 'quin', 'ros', 'sel', 'tor', 'ul', 'ves', 'win', 'yl'],
];

/** @param {() => number} random */
export const givenName = (random) => word(random, 2);

/** One of some fourteen thousand. @param {() => number} random */
export const familyName = (random) => word(random, 3);

/** @param {() => number} random @param {number} length in syllables */
function word(random, length) {
  const spoken = Array.from({ length }, () => syllables[Math.floor(random() * syllables.length)] ?? '').join(
    '',
  );
  return spoken.charAt(0).toUpperCase() + spoken.slice(1);
}

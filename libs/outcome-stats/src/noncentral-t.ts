import jStat from 'jstat';

/** With 200 the quantiles agree with R's `qt` to eight digits from 1 to 350 degrees of freedom. */
const steps = 200;

/**
 * Quantile of the noncentral t distribution: of (Z + shift) / √(χ² / dof).
 *
 * Integrates the normal distribution over the spread √(χ² / dof), as jstat's own series fails for large shifts.
 *
 * @param p 0–1, both excluded
 * @param dof 1 or more
 * @example noncentralTQuantile(0.975, 5, 1.959964 * Math.sqrt(6)) / Math.sqrt(6); // 5.1108…
 */
export function noncentralTQuantile(p: number, dof: number, shift: number): number {
  const key = `${p} ${dof} ${shift}`;
  const quantile = known.get(key) ?? solved(p, dof, shift);
  if (known.size >= 1000) known.clear();
  known.set(key, quantile);
  return quantile;
}

/** Groups of one size ask for the same quantiles again and again. */
const known = new Map<string, number>();

function solved(p: number, dof: number, shift: number): number {
  const nodes = spreadNodes(dof);
  const below = (t: number): number =>
    nodes.reduce((sum, { spread, weight }) => sum + weight * jStat.normal.cdf(t * spread - shift, 0, 1), 0);
  let low = -1;
  let high = 1;
  while (below(low) > p) low *= 2;
  while (below(high) < p) high *= 2;
  for (let i = 0; i < 40; i += 1) {
    const middle = (low + high) / 2;
    if (below(middle) < p) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Where and how much to weigh √(χ² / dof); evenly spaced in its logarithm, where the sum converges fastest. */
function spreadNodes(dof: number): readonly { readonly spread: number; readonly weight: number }[] {
  const from = Math.log(jStat.chisquare.inv(1e-12, dof) / dof) / 2;
  const to = Math.log(jStat.chisquare.inv(1 - 1e-12, dof) / dof) / 2;
  const step = (to - from) / steps;
  const logScale = (dof / 2) * Math.log(dof / 2) - jStat.gammaln(dof / 2) + Math.LN2;
  return Array.from({ length: steps + 1 }, (_, i) => {
    const logSpread = from + i * step;
    const spread = Math.exp(logSpread);
    return { spread, weight: step * Math.exp(logScale + dof * logSpread - (dof * spread ** 2) / 2) };
  });
}

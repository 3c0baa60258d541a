/** The part of jstat this library uses; the package brings no types. */
declare module 'jstat' {
  const jStat: {
    mean(values: readonly number[]): number;
    median(values: readonly number[]): number;
    /** With `sample` the divisor is n − 1. */
    stdev(values: readonly number[], sample: boolean): number;
    gammaln(x: number): number;
    readonly studentt: {
      /** Quantile of Student's t with `dof` degrees of freedom. */
      inv(p: number, dof: number): number;
      cdf(t: number, dof: number): number;
    };
    readonly normal: {
      inv(p: number, mean: number, standardDeviation: number): number;
      cdf(x: number, mean: number, standardDeviation: number): number;
    };
    readonly chisquare: {
      inv(p: number, dof: number): number;
    };
  };
  export default jStat;
}

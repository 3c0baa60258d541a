/** The part of jstat this library uses; the package brings no types. */
declare module 'jstat' {
  const jStat: {
    readonly studentt: {
      /** Quantile of Student's t with `dof` degrees of freedom. */
      inv(p: number, dof: number): number;
    };
  };
  export default jStat;
}

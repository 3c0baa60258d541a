/** One decimal with its sign, a true minus, and no sign for nothing: `+1.2`, `−0.4`, `0.0`. */
export function signed(value: number): string {
  const spelled = Math.abs(value).toFixed(1);
  if (Number(spelled) === 0) return spelled;
  return `${value > 0 ? '+' : '−'}${spelled}`;
}

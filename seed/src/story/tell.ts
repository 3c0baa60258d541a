/** Prints the story; a step that does not hold ends it with a failure. */
export function say(sentence: string): void {
  process.stdout.write(`  ${sentence}\n`);
}

export function chapter(title: string): void {
  process.stdout.write(`\n${title}\n`);
}

/** @throws Error when what the story promises is not so */
export function holds(what: string, held: boolean): asserts held {
  if (!held) throw new Error(`this did not hold: ${what}`);
}

export const mm = (value: number): string => `${value.toFixed(0)} mm`;
export const signed = (value: number): string => `${value > 0 ? '+' : '−'}${Math.abs(value).toFixed(1)}`;

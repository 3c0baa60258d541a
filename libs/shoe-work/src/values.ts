import type { Step, StepValue } from './procedure.js';

export interface ValueProblem {
  readonly field: string;
  readonly message: string;
}

/** What is wrong with the values a step is written down with. A check that does not hold is no step done. */
export function valueProblems({ values }: Step, given: Readonly<Record<string, unknown>>): ValueProblem[] {
  const unknown = Object.keys(given).filter((name) => !values.some((value) => value.name === name));
  return [
    ...unknown.map((name) => ({ field: `values.${name}`, message: 'is not known' })),
    ...values.flatMap((value) => {
      const message = problemOf(value, given[value.name]);
      return message === null ? [] : [{ field: `values.${value.name}`, message }];
    }),
  ];
}

function problemOf(value: StepValue, given: unknown): string | null {
  switch (value.kind) {
    case 'check':
      return given === true ? null : 'must be true: the step is done when the check holds';
    case 'number': {
      const { least, most } = value;
      return typeof given === 'number' && given >= least && given <= most
        ? null
        : `must be a number from ${least} to ${most}`;
    }
    case 'text':
      return typeof given === 'string' && given.trim() !== '' && given.length <= 200 && !given.includes('\0')
        ? null
        : 'must be a text of 1 to 200 characters';
  }
}

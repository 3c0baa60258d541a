import type { ScreeningOccasion } from '@studio/database';
import { answersOfScreening } from '../screenings/index.js';
import type { CaseFinding } from './referrals.queries.js';

export interface FactsOfScreening {
  readonly occasion: ScreeningOccasion;
  readonly screenedAt: Date;
  readonly facts: readonly { readonly question: string; readonly answer: string }[];
}

/** The answers a case rests on, by screening: each once, in the order the questions were asked. */
export function caseFacts(findings: readonly CaseFinding[]): FactsOfScreening[] {
  const screenings = new Map(findings.map((item) => [item.screeningId, item]));
  return [...screenings.values()].map((screening) => {
    const restedOn = new Set<string>(
      findings
        .filter(({ screeningId }) => screeningId === screening.screeningId)
        .flatMap(({ finding }) => finding.because.map(({ fact }) => fact)),
    );
    return {
      occasion: screening.occasion,
      screenedAt: screening.screenedAt,
      facts: answersOfScreening(screening)
        .filter(({ key }) => restedOn.has(key))
        .map(({ text, inWords }) => ({ question: text, answer: inWords })),
    };
  });
}

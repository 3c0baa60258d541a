import {
  evaluate,
  factsFrom,
  relevantQuestions,
  riderIntake,
  type Answers,
  type AskedQuestion,
  type Evaluation,
  type FindingResult,
} from '@studio/clinical-flags';

/** What a rider answers who has nothing to report and is active. */
function nothingToReport({ id, kind, min }: AskedQuestion & { readonly min?: number }): unknown {
  if (id.startsWith('active_')) return id === 'active_days_per_week' ? 3 : 45;
  if (id === 'age_years') return 40;
  switch (kind) {
    case 'yes_no':
      return 'no';
    case 'number':
      return min;
    case 'several_of':
    case 'body_sites':
      return [];
    case 'one_of':
    case 'date':
    case 'text':
      return undefined;
  }
}

/** The intake of a rider who reports this and nothing else; every other relevant question is answered. */
export function intakeOf(reported: Answers): Record<string, unknown> {
  const answers: Record<string, unknown> = { ...reported };
  for (;;) {
    const next = relevantQuestions(riderIntake, answers).filter(
      (question) => !(question.key in answers) && nothingToReport(question) !== undefined,
    );
    if (next.length === 0) return answers;
    for (const question of next) answers[question.key] ??= nothingToReport(question);
  }
}

export const screened = (reported: Answers): Evaluation =>
  evaluate(factsFrom(riderIntake, intakeOf(reported)));

export const resultOf = ({ findings }: Evaluation, ruleId: string): FindingResult | undefined =>
  findings.find((finding) => finding.ruleId === ruleId)?.result;

/** Riding is barred altogether (`NO`), something is barred (`LTD`), or nothing is (`YES`). */
export const fitOf = ({ permission }: Evaluation): 'NO' | 'LTD' | 'YES' =>
  permission.barred.includes('riding') ? 'NO' : permission.level === 'limited' ? 'LTD' : 'YES';

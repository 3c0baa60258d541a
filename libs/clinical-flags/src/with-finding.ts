import type { Evaluation } from './evaluate.js';
import type { Finding } from './finding.js';

/** Where a finding was raised: what it says stands in the result. */
export interface RaisedIn {
  readonly ruleId: string;
  readonly result: Evaluation;
}

/** Rows of findings, each with what it says in place of the result it stands in. */
export const withFinding = <Row extends RaisedIn>(
  rows: readonly Row[],
): (Omit<Row, keyof RaisedIn> & { finding: Finding })[] =>
  rows.flatMap(({ ruleId, result, ...row }) =>
    result.findings.filter((finding) => finding.ruleId === ruleId).map((finding) => ({ ...row, finding })),
  );

import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import {
  groupDifference,
  hodgesLehmann,
  holm,
  meanInterval,
  pairedEstimate,
  summariseChanges,
  tTest,
  wilcoxonSignedRank,
  wilsonInterval,
  type Pair,
} from '@studio/outcome-stats';
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { normalFrom, seededRandom } from './seeded-random.js';

// Oracle: R (Debian r-base-core), by its own t.test, wilcox.test, prop.test and p.adjust over random data.
// RSCRIPT names another Rscript than the one on the path.
const rscript = process.env['RSCRIPT'] ?? 'Rscript';
const version = spawnSync(rscript, ['-e', 'cat(as.character(getRversion()))'], { encoding: 'utf8' });
const found = version.status === 0;
const title = found ? `by R ${version.stdout.trim()}` : `SKIPPED: no ${rscript} found, so R is not asked`;

const random = seededRandom(20_261_125);
const normal = normalFrom(random);

interface Case {
  readonly pairs: readonly Pair[];
  readonly other: readonly Pair[];
  readonly count: number;
  readonly ps: readonly number[];
}

const sizes = [6, 7, 8, 9, 11, 14, 19, 25, 33, 42, 49];
const cases: readonly Case[] = Array.from({ length: 66 }, (_, i): Case => {
  const n = sizes[i % sizes.length] ?? 6;
  const shift = normal() * 0.5;
  // Every third case is whole numbers with ties and zeros, as answers on a scale are.
  const scale = i % 3 === 0 ? (value: number) => Math.round(2 * value) : (value: number) => value;
  const pairs = Array.from({ length: n }, () => ({ before: 0, after: scale(normal() + shift) }));
  const other = Array.from({ length: n + 3 }, () => ({ before: 0, after: 2 * normal() }));
  const count = Math.floor(random() * (n + 1));
  return { pairs, other, count, ps: Array.from({ length: 5 }, () => random() ** 2) };
});
const hasTies = ({ pairs }: Case): boolean =>
  new Set(pairs.map(({ after }) => Math.abs(after))).size < pairs.length;

const names = [
  't',
  'pTwoSided',
  'low',
  'high',
  'wilcoxonP',
  'wilcoxonGreater',
  'median',
  'medianLow',
  'medianHigh',
  'shareLow',
  'shareHigh',
  'shareLowCc',
  'shareHighCc',
  'welchDegreesOfFreedom',
  'welchP',
  'pooledP',
  'holm1',
  'holm2',
  'holm3',
  'holm4',
  'holm5',
] as const;
type Answers = Record<(typeof names)[number], number>;

const script = `
answer <- function(x, y, count, ps) {
  t <- t.test(x); w <- t.test(x, y); s <- t.test(x, y, var.equal = TRUE)
  ties <- any(x == 0) || any(duplicated(abs(x)))
  wilcoxon <- c(NA, NA, NA, NA, NA)
  if (!ties) {
    two <- wilcox.test(x, exact = TRUE, conf.int = TRUE)
    greater <- wilcox.test(x, exact = TRUE, alternative = "greater")
    wilcoxon <- c(two$p.value, greater$p.value, two$estimate, two$conf.int)
  }
  plain <- prop.test(count, length(x), correct = FALSE)$conf.int
  corrected <- suppressWarnings(prop.test(count, length(x), correct = TRUE)$conf.int)
  cat(sprintf("%.15g", c(t$statistic, t$p.value, t$conf.int, wilcoxon, plain, corrected,
    w$parameter, w$p.value, s$p.value, p.adjust(ps, "holm"))), "\\n")
}
options(warn = -1)
${cases
  .map(({ pairs, other, count, ps }) => {
    const vector = (values: readonly number[]): string => `c(${values.join(',')})`;
    const after = (of: readonly Pair[]): string => vector(of.map((pair) => pair.after));
    return `answer(${after(pairs)}, ${after(other)}, ${count}, ${vector(ps)})`;
  })
  .join('\n')}
`;

(found ? describe : describe.skip)(`random data ${title}`, () => {
  let folder: string;
  let answers: readonly Answers[];

  beforeAll(() => {
    folder = mkdtempSync(path.join(tmpdir(), 'r-oracle-'));
    const file = path.join(folder, 'oracle.R');
    writeFileSync(file, script);
    const run = spawnSync(rscript, [file], { encoding: 'utf8' });
    expect(run.status).toBe(0);
    answers = run.stdout
      .trim()
      .split('\n')
      .map((line) => {
        const values = line.trim().split(/\s+/).map(Number);
        return Object.fromEntries(names.map((name, i) => [name, values[i] ?? NaN])) as Answers;
      });
    expect(answers).toHaveLength(cases.length);
  });

  afterAll(() => {
    rmSync(folder, { recursive: true });
  });

  const check = (
    compare: (one: Case, answer: Answers) => readonly [found: number | null | undefined, oracle: number][],
    wanted: (one: Case) => boolean = () => true,
  ): void => {
    const compared = cases.flatMap((one, i) => {
      const answer = answers[i];
      return answer !== undefined && wanted(one) ? compare(one, answer) : [];
    });
    expect(compared.length).toBeGreaterThan(20);
    for (const [ours, oracle] of compared) {
      expect(Math.abs((ours ?? NaN) - oracle)).toBeLessThanOrEqual(2e-7 * Math.max(1, Math.abs(oracle)));
    }
  };

  it('t, its p and its interval', () => {
    check(({ pairs }, answer) => {
      const estimate = pairedEstimate(summariseChanges(pairs, 0));
      const test = tTest(estimate, 0);
      const interval = meanInterval(estimate, 0.95);
      return [
        [test.t, answer.t],
        [test.pTwoSided, answer.pTwoSided],
        [interval?.low, answer.low],
        [interval?.high, answer.high],
      ];
    });
  });

  it('exact signed ranks and Hodges–Lehmann with its interval, where R is exact: without ties', () => {
    check(
      ({ pairs }, answer) => {
        const test = wilcoxonSignedRank(pairs, 0);
        const typical = hodgesLehmann(pairs, 0);
        return [
          [test.pTwoSided, answer.wilcoxonP],
          [test.pGreater, answer.wilcoxonGreater],
          [typical.medianChange, answer.median],
          [typical.interval95?.low, answer.medianLow],
          [typical.interval95?.high, answer.medianHigh],
        ];
      },
      (one) => !hasTies(one),
    );
  });

  it('score interval of a share, without and with continuity correction', () => {
    check(({ pairs, count }, answer) => {
      // R's correction shrinks to |count − n / 2| when that is below a half; the published one does not.
      const plain = wilsonInterval(count, pairs.length, false);
      const corrected = wilsonInterval(count, pairs.length, true);
      const rows: [number, number][] = [
        [plain.low, answer.shareLow],
        [plain.high, answer.shareHigh],
      ];
      if (Math.abs(count - pairs.length / 2) >= 0.5) {
        rows.push([corrected.low, answer.shareLowCc], [corrected.high, answer.shareHighCc]);
      }
      return rows;
    });
  });

  it('difference of two groups, spreads pooled or not', () => {
    check(({ pairs, other }, answer) => {
      const [first, second] = [summariseChanges(pairs, 0), summariseChanges(other, 0)];
      const unequal = groupDifference(first, second, 'unequal');
      return [
        [unequal.degreesOfFreedom, answer.welchDegreesOfFreedom],
        [tTest(unequal, 0).pTwoSided, answer.welchP],
        [tTest(groupDifference(first, second, 'equal'), 0).pTwoSided, answer.pooledP],
      ];
    });
  });

  it('Holm', () => {
    check(({ ps }, answer) => {
      const corrected = holm(
        ps.map((p) => ({ question: 'any', p })),
        0,
      ).questions.map(({ correctedP }) => correctedP);
      const oracle = [answer.holm1, answer.holm2, answer.holm3, answer.holm4, answer.holm5];
      return oracle.map((p, i) => [corrected[i], p]);
    });
  });
});

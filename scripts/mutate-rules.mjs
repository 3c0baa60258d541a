// What would no test notice? Gets the code of the screening engine wrong in one place at a time, in a copy, runs the
// library's tests on it and lists the mutants that survive.
//
//   node scripts/mutate-rules.mjs [--sample 60] [--seed 1] [--all]
import { execFile } from 'node:child_process';
import { cpSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs, promisify } from 'node:util';
import ts from 'typescript';
import jestConfig from '../jest.config.mjs';

const run = promisify(execFile);
const { values: options } = parseArgs({
  options: {
    sample: { type: 'string', default: '60' },
    seed: { type: 'string', default: '1' },
    all: { type: 'boolean', default: false },
  },
});

const root = join(import.meta.dirname, '..');
const engine = [
  'condition.ts',
  'evaluate.ts',
  'desk-notice.ts',
  'explain.ts',
  'questions/check-answers.ts',
  'questions/facts-from.ts',
  'questions/question-set.ts',
  'questions/relevant-questions.ts',
  'scores/two-level-dvt-score.ts',
  'scores/ankle-brachial-index.ts',
  'scores/exercise-index.ts',
  'scores/claudication-questions.ts',
  'scores/neuropathy-questionnaire.ts',
  'scores/injury-criteria.ts',
  'scores/with-clinician-scores.ts',
];

/** @type {ReadonlyMap<ts.SyntaxKind, string>} */
const swapped = new Map([
  [ts.SyntaxKind.EqualsEqualsEqualsToken, '!=='],
  [ts.SyntaxKind.ExclamationEqualsEqualsToken, '==='],
  [ts.SyntaxKind.LessThanToken, '<='],
  [ts.SyntaxKind.LessThanEqualsToken, '<'],
  [ts.SyntaxKind.GreaterThanToken, '>='],
  [ts.SyntaxKind.GreaterThanEqualsToken, '>'],
  [ts.SyntaxKind.AmpersandAmpersandToken, '||'],
  [ts.SyntaxKind.BarBarToken, '&&'],
  [ts.SyntaxKind.PlusToken, '-'],
  [ts.SyntaxKind.MinusToken, '+'],
]);

/**
 * @typedef {{ file: string, line: number, what: string, text: string }} Mutant
 * @param {string} file
 * @returns {Mutant[]}
 */
function mutantsOf(file) {
  const text = readFileSync(join(root, 'libs/clinical-flags/src', file), 'utf8');
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.ES2022, true);
  /** @type {Mutant[]} */
  const mutants = [];
  /** @param {ts.Node} node @param {string} instead */
  const replace = (node, instead) => {
    const start = node.getStart(source);
    const line = source.getLineAndCharacterOfPosition(start).line + 1;
    const what = `${node.getText(source)} → ${instead}`;
    mutants.push({ file, line, what, text: text.slice(0, start) + instead + text.slice(node.end) });
  };
  /** @param {ts.Node} node */
  const visit = (node) => {
    if (ts.isTypeNode(node) || ts.isInterfaceDeclaration(node) || ts.isImportDeclaration(node)) return;
    if (ts.isBinaryExpression(node)) {
      const other = swapped.get(node.operatorToken.kind);
      if (other !== undefined) replace(node.operatorToken, other);
    }
    if (ts.isNumericLiteral(node)) replace(node, String(Number(node.text) + 1));
    if (node.kind === ts.SyntaxKind.TrueKeyword) replace(node, 'false');
    if (node.kind === ts.SyntaxKind.FalseKeyword) replace(node, 'true');
    if (ts.isPrefixUnaryExpression(node) && node.operator === ts.SyntaxKind.ExclamationToken) {
      replace(node, node.operand.getText(source));
    }
    if (ts.isConditionalExpression(node)) {
      replace(node, `(${node.whenTrue.getText(source)})`);
      replace(node, `(${node.whenFalse.getText(source)})`);
    }
    if (ts.isStringLiteral(node) && ['true', 'false', 'unknown', 'yes', 'no', 'none'].includes(node.text)) {
      replace(node, node.text === 'unknown' ? "'false'" : "'unknown'");
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return mutants;
}

/** The same order for the same seed (mulberry32). @param {number} seed */
function random(seed) {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

const copy = join(root, '.data/mutants');
rmSync(copy, { recursive: true, force: true });
mkdirSync(copy, { recursive: true });
cpSync(join(root, 'libs/clinical-flags/src'), join(copy, 'src'), { recursive: true });
cpSync(join(root, 'tests/outside/clinical-flags'), join(copy, 'outside'), { recursive: true });
writeFileSync(join(copy, 'package.json'), '{ "type": "module" }');
const [unit] = jestConfig.projects;
writeFileSync(
  join(copy, 'jest.config.json'),
  JSON.stringify({
    rootDir: copy,
    extensionsToTreatAsEsm: unit?.extensionsToTreatAsEsm,
    testEnvironment: unit?.testEnvironment,
    transform: unit?.transform,
    testMatch: ['**/*.spec.ts'],
    moduleNameMapper: {
      '^(\\.{1,2}/.*)\\.js$': '$1',
      '^@studio/clinical-flags$': '<rootDir>/src/index.ts',
    },
  }),
);

/** Whether every test passes on the copy as it is. */
async function passes() {
  const jest = join(root, 'node_modules/jest/bin/jest.js');
  const flags = [
    '--experimental-vm-modules',
    '--no-warnings',
    jest,
    '-c',
    'jest.config.json',
    '--bail',
    '-i',
  ];
  try {
    await run(process.execPath, flags, { cwd: copy, timeout: 120_000 });
    return true;
  } catch {
    return false;
  }
}

if (!(await passes())) throw new Error('the tests fail on the code as it is');
const all = engine.flatMap(mutantsOf);
const next = random(Number(options.seed));
const shuffled = all
  .map((mutant) => ({ mutant, at: next() }))
  .sort((one, other) => one.at - other.at)
  .map(({ mutant }) => mutant);
const chosen = options.all ? shuffled : shuffled.slice(0, Number(options.sample));
let survivors = 0;
for (const mutant of chosen) {
  const file = join(copy, 'src', mutant.file);
  const right = readFileSync(file, 'utf8');
  writeFileSync(file, mutant.text);
  if (await passes()) {
    survivors += 1;
    console.log(`survives: ${mutant.file}:${mutant.line} ${mutant.what}`);
  }
  writeFileSync(file, right);
}
console.log(`${chosen.length} of ${all.length} mutants (seed ${options.seed}), ${survivors} survive`);

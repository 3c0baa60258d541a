// Writes libs/fit-math/FORMULAS.md from the docstrings that name a @source: what, source, check, tolerance. With
// --check it writes nothing and exits 1 when the file is not what the docstrings say. A formula without a check, or a
// check in a file that is not there, is an error either way.
import { existsSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import ts from 'typescript';
import { formatted } from './services/formatted.mjs';

const library = join(import.meta.dirname, '../libs/fit-math');
const target = join(library, 'FORMULAS.md');
/** How a @check names the file it is in, and where that is from the library. */
const checkFiles = [
  { named: /\boutside\/([\w-]+)/g, in: '../../tests/outside/fit-math/' },
  { named: /\bsrc\/([\w/-]+)/g, in: 'src/' },
];

/** @param {string | ts.NodeArray<ts.JSDocComment> | undefined} comment */
const oneLine = (comment) =>
  (ts.getTextOfJSDocComment(comment) ?? '').replace(/\s+/g, ' ').replaceAll('|', '\\|').trim();

/** @param {string} check */
function linked(check) {
  return checkFiles.reduce(
    (text, { named, in: folder }) =>
      text.replace(named, (name, file) => {
        const path = `${folder}${file}.spec.ts`;
        if (!existsSync(join(library, path))) throw new Error(`A @check names ${path}, which is not there.`);
        return `[${name}](${path})`;
      }),
    check,
  );
}

/** @param {string} file */
function formulasOf(file) {
  const source = ts.createSourceFile(file, readFileSync(file, 'utf8'), ts.ScriptTarget.ES2022, true);
  return source.statements.filter(ts.isFunctionDeclaration).flatMap((node) => {
    const tags = ts.getJSDocTags(node);
    const docs = ts.getJSDocCommentsAndTags(node).filter(ts.isJSDoc);
    if (!node.name || !tags.some(({ tagName }) => tagName.text === 'source')) return [];
    const [from, check, tolerance] = ['source', 'check', 'tolerance'].map((name) => {
      const text = oneLine(tags.find(({ tagName }) => tagName.text === name)?.comment);
      if (text === '') throw new Error(`${node.name?.text} in ${relative(library, file)} has no @${name}.`);
      return text;
    });
    const what = oneLine(docs.at(-1)?.comment).split(/(?<=\.) /)[0] ?? '';
    const name = `[\`${node.name.text}\`](${relative(library, file)})`;
    return [`| ${name} | ${what} | ${from} | ${linked(check ?? '')} | ${tolerance} |`];
  });
}

const files = readdirSync(join(library, 'src'), { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.ts') && !name.endsWith('.spec.ts'))
  .sort()
  .map((name) => join(library, 'src', name));
const page = `# Formulas

Written by \`node scripts/generate-formulas.mjs\` from the docstrings: change those, not this page.

Each row: the function, what it answers, where its formula comes from, what it is held to and how closely. A check under
\`outside/\` is against something published or computed apart from this library; one under \`src/\` is against the library's
own properties, or a second way worked out in the test. Tolerances follow the order of the checks.

| Formula | What it answers | Source | Check | Tolerance |
| --- | --- | --- | --- | --- |
${files.flatMap(formulasOf).join('\n')}
`;

const text = await formatted(target, page);

if (!process.argv.includes('--check')) {
  writeFileSync(target, text);
} else if (readFileSync(target, 'utf8') !== text) {
  console.error('FORMULAS.md is not what the docstrings say: run node scripts/generate-formulas.mjs');
  process.exit(1);
}

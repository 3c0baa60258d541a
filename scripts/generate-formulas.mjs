// Writes libs/fit-math/FORMULAS.md from the docstrings that name a @source. With --check it writes nothing and exits
// 1 when the file is not what the docstrings say.
import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { format, resolveConfig } from 'prettier';
import ts from 'typescript';

const library = join(import.meta.dirname, '../libs/fit-math');
const target = join(library, 'FORMULAS.md');

/** @param {string | ts.NodeArray<ts.JSDocComment> | undefined} comment */
const oneLine = (comment) =>
  (ts.getTextOfJSDocComment(comment) ?? '').replace(/\s+/g, ' ').replaceAll('|', '\\|').trim();

/** @param {string} file */
function formulasOf(file) {
  const source = ts.createSourceFile(file, readFileSync(file, 'utf8'), ts.ScriptTarget.ES2022, true);
  return source.statements.filter(ts.isFunctionDeclaration).flatMap((node) => {
    const tag = ts.getJSDocTags(node).find(({ tagName }) => tagName.text === 'source');
    const docs = ts.getJSDocCommentsAndTags(node).filter(ts.isJSDoc);
    if (!tag || !node.name) return [];
    const what = oneLine(docs.at(-1)?.comment).split(/(?<=\.) /)[0] ?? '';
    const name = `[\`${node.name.text}\`](${relative(library, file)})`;
    return [`| ${name} | ${what} | ${oneLine(tag.comment)} |`];
  });
}

const files = readdirSync(join(library, 'src'), { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.ts') && !name.endsWith('.spec.ts'))
  .sort()
  .map((name) => join(library, 'src', name));
const page = `# Formulas

Written by \`node scripts/generate-formulas.mjs\` from the docstrings: change those, not this page.

| Formula | What it answers | Source |
| --- | --- | --- |
${files.flatMap(formulasOf).join('\n')}
`;

const text = await format(page, { ...(await resolveConfig(target)), parser: 'markdown' });

if (!process.argv.includes('--check')) {
  writeFileSync(target, text);
} else if (readFileSync(target, 'utf8') !== text) {
  console.error('FORMULAS.md is not what the docstrings say: run node scripts/generate-formulas.mjs');
  process.exit(1);
}

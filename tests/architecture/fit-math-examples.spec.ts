import { join } from 'node:path';
import { createContext, runInContext } from 'node:vm';
import { describe, expect, it } from '@jest/globals';
import * as fitMath from '@studio/fit-math';
import ts from 'typescript';

/**
 * Runs what the docstrings of the position library show. The value of an example's last expression stands after the
 * last `//`: a literal, an object of some of the fields, or digits cut off by `…`.
 */
const entry = join(import.meta.dirname, '../../libs/fit-math/src/index.ts');
const examplesFile = join(import.meta.dirname, '../../libs/fit-math/src/examples.ts');
const options: ts.CompilerOptions = {
  module: ts.ModuleKind.NodeNext,
  moduleResolution: ts.ModuleResolutionKind.NodeNext,
  target: ts.ScriptTarget.ES2022,
  lib: ['lib.es2023.d.ts'],
  strict: true,
  noEmit: true,
  types: [],
};

interface Example {
  readonly name: string;
  readonly code: string;
  readonly value: string;
}

const library = ts.createProgram([entry], options);

function publicFunctions(): { readonly name: string; readonly examples: readonly Example[] }[] {
  const checker = library.getTypeChecker();
  const source = library.getSourceFile(entry);
  const module = source && checker.getSymbolAtLocation(source);
  if (!module) throw new Error(`${entry} exports nothing`);
  return checker
    .getExportsOfModule(module)
    .map((symbol) => (symbol.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(symbol) : symbol))
    .filter(({ flags }) => flags & ts.SymbolFlags.Function)
    .map((symbol) => ({
      name: symbol.name,
      examples: symbol
        .getJsDocTags(checker)
        .filter(({ name }) => name === 'example')
        .map(({ text }) => exampleOf(symbol.name, ts.displayPartsToString(text))),
    }));
}

function exampleOf(name: string, text: string): Example {
  const [, code, value] = /^([\s\S]*)\/\/([\s\S]*)$/.exec(text) ?? [];
  if (code === undefined || value === undefined) throw new Error(`${name}: an @example without its // value`);
  return { name, code: code.trim(), value: value.trim() };
}

/** Faults of types in the examples, each compiled in a function of its own beside the library. */
function typeFaults(examples: readonly Example[]): string[] {
  const text =
    `import { ${Object.keys(fitMath).join(', ')} } from './index.js';\n` +
    examples.map(({ code }, i) => `export const example${i} = (): void => {\n${code}\n};`).join('\n');
  const host = ts.createCompilerHost(options);
  const read = host.getSourceFile.bind(host);
  host.getSourceFile = (file, ...rest) =>
    file === examplesFile ? ts.createSourceFile(file, text, ts.ScriptTarget.ES2022) : read(file, ...rest);
  host.fileExists = (file) => file === examplesFile || ts.sys.fileExists(file);
  const program = ts.createProgram([examplesFile], options, host, library);
  const source = program.getSourceFile(examplesFile);
  return [...program.getSyntacticDiagnostics(source), ...program.getSemanticDiagnostics(source)].map(
    ({ messageText }) => ts.flattenDiagnosticMessageText(messageText, '\n'),
  );
}

const context = createContext({
  ...fitMath,
  /** Digits cut off, not rounded. */
  digits: (shown: string) => ({ asymmetricMatch: (found: unknown) => String(found).startsWith(shown) }),
});

function valueOf(code: string): unknown {
  const script = ts.transpile(code, { target: ts.ScriptTarget.ES2022, module: ts.ModuleKind.None });
  return runInContext(script, context);
}

const functions = publicFunctions();
const examples = functions.flatMap((one) => one.examples);

describe('examples of the position library', () => {
  it('stand with every public function', () => {
    expect(functions.length).toBeGreaterThan(40);
    expect(functions.filter((one) => one.examples.length === 0).map(({ name }) => name)).toEqual([]);
  });

  it('compile as strictly as the library', () => {
    expect(typeFaults(examples)).toEqual([]);
  });

  it.each(examples.map((example) => [example.name, example] as const))(
    '%s says what it shows',
    (_, example) => {
      const found = valueOf(`{ ${example.code} }`);
      const shown = valueOf(`(${example.value.replace(/(-?[\d.]+)…/g, "digits('$1')")})`);
      if (typeof found === 'object' && found !== null && !Array.isArray(found)) {
        expect(found).toMatchObject(shown as Record<string, unknown>);
      } else {
        expect(found).toEqual(shown);
      }
    },
  );
});

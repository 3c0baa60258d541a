// Writes the JSON Schema of what the calculators take and answer, from their TypeScript types and docstrings.
//   --check    changes nothing; fails when the file on disk says something else
import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { createGenerator } from 'ts-json-schema-generator';
import { formatted } from './services/formatted.mjs';
import { root } from './services/paths.mjs';

const folder = path.join(root, 'apps', 'api', 'src', 'features', 'calculations');
const file = path.join(folder, 'calculations.schema.ts');

const schema = createGenerator({
  path: path.join(folder, 'calculations.ts'),
  tsconfig: path.join(root, 'apps', 'api', 'tsconfig.json'),
  type: 'Calculations',
  topRef: false,
  additionalProperties: false,
  // The compiler has checked them before.
  skipTypeCheck: true,
}).createSchema('Calculations');
const { properties, definitions } = schema;
const source = `// Made by scripts/generate-calculations.mjs from calculations.ts; not for the hand.
export const calculationsSchema = ${JSON.stringify({ properties, definitions })};`;
const text = await formatted(file, source);

if (process.argv.includes('--check')) {
  if (readFileSync(file, 'utf8') !== text) {
    console.error('calculations.schema.ts is not what the types say: node scripts/generate-calculations.mjs');
    process.exitCode = 1;
  }
} else {
  writeFileSync(file, text);
}

import { execFileSync } from 'node:child_process';
import { join } from 'node:path';
import { describe, it } from '@jest/globals';

describe('FORMULAS.md', () => {
  it('says what the docstrings say', () => {
    const script = join(import.meta.dirname, '../../scripts/generate-formulas.mjs');
    // Throws with the script's own message when the page has drifted.
    execFileSync(process.execPath, [script, '--check'], { encoding: 'utf8' });
  });
});

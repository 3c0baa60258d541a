import { Spec, Validation } from '@cyclonedx/cyclonedx-library';
import { describe, expect, it } from '@jest/globals';
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { licencesOf } from '../../scripts/services/licences.mjs';

const root = path.resolve(import.meta.dirname, '../..');

interface Bom {
  specVersion: '1.5';
  components: { name: string; group?: string; version: string }[];
}

describe('the bill of materials', () => {
  const { status, stdout } = spawnSync('npm', ['run', '--silent', 'sbom'], { cwd: root, encoding: 'utf8' });

  it('is one that CycloneDX’s own schema takes', async () => {
    expect(status).toBe(0);
    // bom-1.5-strict.schema.json, as OWASP's own library carries it.
    const validator = new Validation.JsonStrictValidator(Spec.Version.v1dot5);
    expect(await validator.validate(stdout)).toBeNull();
    const spoilt = stdout.replaceAll('"type": "library"', '"type": "book"');
    expect(await validator.validate(spoilt)).not.toBeNull();
  });

  it('names what is run, and no tools', () => {
    const { specVersion, components } = JSON.parse(stdout) as Bom;
    expect(specVersion).toBe('1.5');
    const names = components.map(({ group, name }) => (group === undefined ? name : `${group}/${name}`));
    expect(names).toEqual(expect.arrayContaining(['fastify', 'typeorm', 'bullmq']));
    expect(names).not.toContain('jest');
  });
});

describe('licences', () => {
  const of = (license: string | undefined, more: object = {}) =>
    licencesOf({
      packages: { 'node_modules/a': { version: '1.0.0', ...(license && { license }), ...more } },
    })[0]?.allowed;

  it('of all that is installed are allowed', () => {
    const lock = JSON.parse(readFileSync(path.join(root, 'package-lock.json'), 'utf8')) as Parameters<
      typeof licencesOf
    >[0];
    const all = licencesOf(lock);
    expect(all.length).toBeGreaterThan(500);
    expect(all.filter(({ allowed }) => !allowed)).toEqual([]);
  });

  it.each([
    ['MIT', true],
    ['MIT OR GPL-3.0-only', true],
    ['MIT AND GPL-3.0-only', false],
    ['AGPL-3.0-or-later', false],
    ['UNLICENSED', false],
    ['SEE LICENSE IN LICENSE', false],
    [undefined, false],
  ])('are allowed or not: %s', (license, allowed) => {
    expect(of(license)).toBe(allowed);
  });

  it('may ask more of tools than of what is run', () => {
    expect([of('MPL-2.0'), of('MPL-2.0', { dev: true })]).toEqual([false, true]);
  });
});

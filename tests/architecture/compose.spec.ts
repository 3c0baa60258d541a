import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { describe, expect, it } from '@jest/globals';
import { apiConfig, backupConfig, workerConfig } from '@studio/config';
import { Ajv, type SchemaObject } from 'ajv';
import { parse } from 'yaml';
import { bundleOf } from '../../scripts/services/bundle.mjs';

const root = path.resolve(import.meta.dirname, '../..');

interface Service {
  image?: string;
  build?: string;
  command?: string[];
  environment?: Record<string, string | null>;
  networks?: string[];
  profiles?: string[];
  healthcheck?: { test: string[] };
  depends_on?: Record<string, { condition: string }>;
}

function composeFile(): { services: Record<string, Service> } {
  return parse(readFileSync(path.join(root, 'docker-compose.yml'), 'utf8'), { merge: true }) as {
    services: Record<string, Service>;
  };
}

const { services } = composeFile();

function service(name: string): Service {
  const found = services[name];
  if (found === undefined) throw new Error(`there is no service ${name}`);
  return found;
}

/**
 * `${NAME:-default}` is the default, `${NAME:?message}` what somebody would have set. A name alone is handed on from
 * whoever starts it, here nobody.
 */
function environmentOf(name: string): Record<string, string> {
  const entries = Object.entries(service(name).environment ?? {}).filter(
    (entry): entry is [string, string] => entry[1] !== null,
  );
  return Object.fromEntries(
    entries.map(([key, value]) => [
      key,
      value.replace(/\$\{(\w+):([-?])([^}]*)\}/g, (_all, name: string, kind: string, text: string) =>
        kind === '-' ? text : somebodySet(name),
      ),
    ]),
  );
}

const somebodySet = (name: string): string =>
  name === 'MASTER_KEYS' ? `first:${'x'.repeat(43)}` : 'x'.repeat(48);

describe('docker-compose.yml', () => {
  // The Compose Specification's own schema (compose-spec.json), as the npm package dclint carries it.
  const packageFile = createRequire(import.meta.url).resolve('dclint/package.json');
  const schema = JSON.parse(
    readFileSync(path.join(path.dirname(packageFile), 'schemas/compose.schema.json'), 'utf8'),
  ) as SchemaObject;
  // It names draft 07 by https, which is not that draft's identifier.
  const validate = new Ajv({ strict: false }).compile({
    ...schema,
    $schema: 'http://json-schema.org/draft-07/schema#',
  });

  it('keeps to the Compose Specification', () => {
    expect(schema['title']).toBe('Compose Specification');
    expect([validate(composeFile()), validate.errors]).toEqual([true, null]);
  });

  it('would be refused for a misspelt key, in a service or in a health check', () => {
    for (const misspelt of [{ healthchek: {} }, { healthcheck: { tests: [] } }]) {
      const file = composeFile();
      Object.assign(file.services['api'] ?? {}, misspelt);
      expect(validate(file)).toBe(false);
    }
  });

  it('has every part of the demo', () => {
    expect(Object.keys(services)).toEqual([
      ...['postgres', 'redis', 'mail-catcher', 'migrate', 'backup', 'api', 'worker'],
    ]);
    expect(service('postgres').image).toBe('postgres:18');
    expect(service('redis').command?.join(' ')).toContain('--maxmemory-policy noeviction --appendonly yes');
    expect(
      Object.entries(services)
        .filter(([, { healthcheck }]) => !healthcheck)
        .map(([name]) => name),
    ).toEqual(['migrate', 'backup']);
  });

  it('starts the apps as the demo does', () => {
    for (const name of ['api', 'worker'] as const) {
      expect(service(name).command).toEqual(['node', path.relative(root, bundleOf(name))]);
    }
  });

  const commands = Object.entries(services).flatMap(([name, { command = [], healthcheck }]) =>
    [command, healthcheck?.test.slice(1) ?? []]
      .filter(([program]) => program === 'node')
      .map(([, script = '']) => [name, script]),
  );
  it.each(commands)('runs for %s a script that exists: %s', (_name, script) => {
    // What is compiled exists only once it is; its source always does.
    const source = script.replace(/\/dist\/(?:bundle\/)?(.+)\.m?js$/, '/src/$1.ts');
    expect(existsSync(path.join(root, source))).toBe(true);
  });
  it('runs eight scripts of ours', () => {
    expect(commands).toHaveLength(8);
  });

  it('gives each app an environment that it accepts, with no test clock', () => {
    expect(apiConfig({ NODE_ENV: 'production', ...environmentOf('api') })).toMatchObject({
      host: '0.0.0.0',
      port: 3000,
      testClock: false,
    });
    expect(workerConfig({ NODE_ENV: 'production', ...environmentOf('worker') })).toMatchObject({
      redis: { url: 'redis://redis:6379', sentinels: [] },
      smtpUrl: 'smtp://mail-catcher:3025',
      port: 3001,
    });
  });

  it('makes backups only when it is asked to', () => {
    expect(service('backup').profiles).toEqual(['tools']);
    const recipients = { BACKUP_RECIPIENTS: 'age1example' };
    expect(backupConfig({ ...environmentOf('backup'), ...recipients })).toMatchObject({
      database: 'fitting_studio',
      storage: { kind: 'folder', folder: '/files' },
    });
  });

  it('keeps the API away from Redis', () => {
    expect(Object.keys(environmentOf('api'))).not.toContain('REDIS_URL');
    const networks = service('redis').networks ?? [];
    expect(networks).not.toEqual([]);
    expect(service('api').networks?.filter((network) => networks.includes(network))).toEqual([]);
  });

  it('starts the apps on a migrated database only', () => {
    for (const name of ['api', 'worker']) {
      expect(service(name).depends_on?.['migrate']).toEqual({ condition: 'service_completed_successfully' });
    }
  });
});

describe('Dockerfile', () => {
  const lines = readFileSync(path.join(root, 'Dockerfile'), 'utf8').split('\n');

  it('builds on Node 24 and runs as an ordinary user', () => {
    expect(lines.filter((line) => line.startsWith('FROM'))).toEqual([
      'FROM node:24-slim AS build',
      'FROM node:24-slim',
    ]);
    expect(lines.findLast((line) => line.startsWith('USER'))).toBe('USER node');
  });
});

import { describe, expect, it } from '@jest/globals';
import { apiConfig, workerConfig } from '@studio/config';
import { Ajv, type SchemaObject } from 'ajv';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { createGenerator } from 'ts-json-schema-generator';
import { parse, parseAllDocuments } from 'yaml';
import { sessionName } from '../../scripts/services/pgbouncer.mjs';
import type { Kinds } from './kubernetes-kinds.js';

const root = path.resolve(import.meta.dirname, '../..');
const folder = path.join(root, 'deploy');
const read = (...names: string[]): string => readFileSync(path.join(folder, ...names), 'utf8');

/** A value that the app takes, for a variable whose own is a secret. */
const secretFor = (name: string): string =>
  ({
    DATABASE_URL: 'postgres://u:p@pgbouncer:6432/fitting_studio',
    DATABASE_REPLICA_URL: 'postgres://u:p@replica:5432/fitting_studio',
    DATABASE_LISTEN_URL: 'postgres://u:p@pgbouncer:6432/fitting_studio_session',
    REDIS_URL: 'redis://:p@redis:6379',
    SMTP_URL: 'smtps://u:p@mail.example:465',
    MAIL_FROM: 'studio@fitting.example',
    PUBLIC_URL: 'https://studio.example',
    MASTER_KEYS: `first:${'x'.repeat(43)}`,
  })[name] ?? 'x'.repeat(48);

const isSecret = (name: string): boolean => /PASSWORD|SECRET|KEY|_URL$/.test(name);

describe('deploy/kubernetes', () => {
  type Manifest = Kinds[keyof Kinds];
  const manifests = readdirSync(path.join(folder, 'kubernetes'))
    .filter((name) => name.endsWith('.yaml'))
    .flatMap((name) =>
      parseAllDocuments(read('kubernetes', name)).map((document) => ({
        name,
        manifest: document.toJS() as Manifest,
      })),
    );
  const all = <Kind extends keyof Kinds>(kind: Kind): Kinds[Kind][] =>
    manifests.flatMap(({ manifest }) => (manifest.kind === kind ? [manifest as Kinds[Kind]] : []));

  // Made of the types of the npm package kubernetes-types, which are made of Kubernetes' published OpenAPI document
  // (its version is the package's: 1.30). Unlike that document, it knows no field that is not named.
  const schema = createGenerator({
    path: path.join(import.meta.dirname, 'kubernetes-kinds.ts'),
    tsconfig: path.join(root, 'tsconfig.base.json'),
    type: 'Kinds',
    topRef: false,
    additionalProperties: false,
    skipTypeCheck: true,
  }).createSchema('Kinds') as SchemaObject & { properties: Record<string, object> };
  const ajv = new Ajv({ strict: false }).addSchema(schema, 'kinds');
  const refusalOf = (manifest: object & { kind?: string; apiVersion?: string }): string | null => {
    const validate = ajv.getSchema(`kinds#/properties/${manifest.kind ?? ''}`);
    if (!validate || manifest.apiVersion === undefined) return 'is of no kind that is known';
    return validate(manifest) === true ? null : ajv.errorsText(validate.errors);
  };

  it.each(manifests.map(({ name, manifest }) => [name, manifest.kind, manifest.metadata?.name, manifest]))(
    'keeps to Kubernetes’ schema: %s, %s %s',
    (_file, _kind, _name, manifest) => {
      expect(refusalOf(manifest as Manifest)).toBeNull();
    },
  );

  it('would be refused for a wrong field, wherever it is', () => {
    const [api] = all('Deployment');
    const spoilt = (change: (copy: Record<string, object>) => void): string | null => {
      const copy = structuredClone(api) as unknown as Record<string, object>;
      change(copy);
      return refusalOf(copy);
    };
    type Loose = Record<string, Record<string, Record<string, Record<string, object[]>>>>;
    const container = (copy: object): object =>
      (copy as Loose)['spec']?.['template']?.['spec']?.['containers']?.[0] ?? {};
    expect(spoilt(() => undefined)).toBeNull();
    expect(spoilt((copy) => Object.assign(copy['spec'] ?? {}, { replica: 2 }))).toContain(
      'additional properties',
    );
    expect(spoilt((copy) => Object.assign(copy['spec'] ?? {}, { replicas: '2' }))).toContain('number');
    expect(spoilt((copy) => Object.assign(container(copy), { livenesProbe: {} }))).toContain('additional');
    expect(spoilt((copy) => Object.assign(copy, { apiVersion: 'apps/v2' }))).toContain('constant');
    expect(spoilt((copy) => Object.assign(copy, { kind: 'Deploiment' }))).toContain('no kind');
  });

  const pods = [...all('Deployment'), ...all('Job')].map((of) => ({
    name: of.metadata?.name ?? '',
    longRunning: of.kind === 'Deployment',
    spec: of.spec?.template.spec,
  }));

  it.each(pods.map((pod) => [pod.name, pod] as const))(
    'lets %s do no more than it has to, and tells whether it is well',
    (_name, { spec, longRunning }) => {
      expect(spec).toMatchObject({
        automountServiceAccountToken: false,
        securityContext: { runAsNonRoot: true, seccompProfile: { type: 'RuntimeDefault' } },
      });
      expect(spec?.containers).toHaveLength(1);
      const [container] = spec?.containers ?? [];
      expect(container).toMatchObject({
        image: expect.stringMatching(/^fitting-studio(-pgbouncer)?:\d+\.\d+\.\d+$/),
        securityContext: {
          allowPrivilegeEscalation: false,
          readOnlyRootFilesystem: true,
          capabilities: { drop: ['ALL'] },
        },
        resources: { requests: { cpu: expect.anything() }, limits: { memory: expect.anything() } },
      });
      const probes = [container?.startupProbe, container?.livenessProbe, container?.readinessProbe];
      expect(probes.every((probe) => (probe !== undefined) === longRunning)).toBe(true);
    },
  );

  const variablesOf = (name: string) => pods.find((pod) => pod.name === name)?.spec?.containers[0]?.env ?? [];

  it('names secrets, and holds none', () => {
    for (const { name } of pods) {
      for (const variable of variablesOf(name)) {
        if (isSecret(variable.name))
          expect([variable.name, variable.valueFrom?.secretKeyRef?.name]).toEqual([
            variable.name,
            expect.any(String),
          ]);
      }
    }
    expect(manifests.filter(({ manifest }) => (manifest.kind as string) === 'Secret')).toEqual([]);
    expect(variablesOf('api').length + variablesOf('worker').length).toBeGreaterThan(20);
  });

  it('gives each app an environment that it accepts', () => {
    const settings = all('ConfigMap').find(({ metadata }) => metadata?.name === 'fitting-studio')?.data;
    const environment = (name: string) => ({
      ...settings,
      ...Object.fromEntries(
        variablesOf(name).map((variable) => [variable.name, variable.value ?? secretFor(variable.name)]),
      ),
    });
    expect(apiConfig(environment('api'))).toMatchObject({
      ...{ production: true, databasePooled: true, storage: { kind: 's3' } },
    });
    const worker = workerConfig(environment('worker'));
    expect(worker).toMatchObject({ production: true, databasePooled: true, storage: { kind: 's3' } });
    expect(worker.redis.sentinels).toHaveLength(3);
  });

  it('scales, replaces and drains what it serves with', () => {
    const named = (kind: 'HorizontalPodAutoscaler' | 'PodDisruptionBudget') =>
      all(kind).map(({ metadata }) => metadata?.name);
    expect(named('HorizontalPodAutoscaler')).toEqual(['api', 'worker']);
    expect(named('PodDisruptionBudget')).toEqual(['api', 'pgbouncer', 'worker']);
    expect(all('HorizontalPodAutoscaler').every(({ spec }) => (spec?.minReplicas ?? 0) >= 2)).toBe(true);
  });

  it('forbids every way that is not named, and names one for every pod', () => {
    const policies = all('NetworkPolicy').map(({ spec }) => spec);
    expect(policies[0]).toMatchObject({ podSelector: {}, policyTypes: ['Ingress', 'Egress'] });
    expect(policies[0]?.ingress ?? policies[0]?.egress).toBeUndefined();
    const selected = policies.map((spec) => spec?.podSelector.matchLabels?.['app']);
    expect(selected).toEqual(expect.arrayContaining(pods.map(({ name }) => name)));
    const redis = policies.filter((spec) => JSON.stringify(spec?.egress ?? []).includes('"redis"'));
    expect(redis.map((spec) => spec?.podSelector.matchLabels?.['app'])).toEqual(['worker']);
  });
});

describe('deploy/compose/compose.yml', () => {
  interface Service {
    image?: string;
    command?: string[];
    deploy?: { replicas: number };
    environment?: Record<string, string | null>;
    networks?: string[];
    volumes?: string[];
  }
  const file = () =>
    parse(read('compose', 'compose.yml'), { merge: true }) as { services: Record<string, Service> };
  const { services } = file();
  // As tests/architecture/compose.spec.ts: the Compose Specification's own schema.
  const packageFile = createRequire(import.meta.url).resolve('dclint/package.json');
  const schema = JSON.parse(
    readFileSync(path.join(path.dirname(packageFile), 'schemas/compose.schema.json'), 'utf8'),
  ) as SchemaObject;
  const validate = new Ajv({ strict: false }).compile({
    ...schema,
    $schema: 'http://json-schema.org/draft-07/schema#',
  });

  it('keeps to the Compose Specification, and would be refused for a misspelt key', () => {
    expect([validate(file()), validate.errors]).toEqual([true, null]);
    const misspelt = file();
    Object.assign(misspelt.services['api'] ?? {}, { deploy: { replica: 2 } });
    expect(validate(misspelt)).toBe(false);
  });

  it('has several of each part that does the work', () => {
    const many = Object.entries(services).filter(([, { deploy }]) => deploy !== undefined);
    expect(many.map(([name, { deploy }]) => [name, deploy?.replicas])).toEqual([
      ['sentinel', 3],
      ['api', 2],
      ['worker', 2],
    ]);
  });

  it('gives each app an environment that it accepts, with every secret from outside', () => {
    const environment = (name: string) =>
      Object.fromEntries(
        Object.entries(services[name]?.environment ?? {}).flatMap(([key, value]) => {
          if (value === null) return [];
          if (isSecret(key) && !/^redis:/.test(value)) expect(value).toContain('${');
          return [
            [
              key,
              value.replace(
                /\$\{(\w+):([-?])([^}]*)\}/g,
                (_all, variable: string, kind: string, text: string) =>
                  kind === '-' ? text : secretFor(variable),
              ),
            ],
          ];
        }),
      );
    expect(apiConfig(environment('api'))).toMatchObject({
      ...{ production: true, databasePooled: true, databaseReplicaUrl: expect.any(String) },
    });
    expect(workerConfig(environment('worker'))).toMatchObject({
      listenUrl: expect.stringContaining('pgbouncer:6432/fitting_studio_session'),
      redis: { sentinels: ['sentinel:26379'], primaryName: 'studio' },
    });
  });

  it('mounts files that exist', () => {
    const mounted = Object.values(services)
      .flatMap(({ volumes = [] }) => volumes)
      .map((volume) => volume.split(':')[0] ?? '')
      .filter((source) => source.startsWith('.'));
    expect(mounted.length).toBeGreaterThan(3);
    expect(mounted.filter((source) => !existsSync(path.join(folder, 'compose', source)))).toEqual([]);
  });

  it('keeps the API away from Redis', () => {
    const queues = services['redis']?.networks ?? [];
    expect(queues).not.toEqual([]);
    expect(services['api']?.networks?.filter((network) => queues.includes(network))).toEqual([]);
  });
});

describe('deploy/pgbouncer', () => {
  const ini = read('pgbouncer', 'pgbouncer.ini');

  it('pools transactions, and sessions under the name the workers listen by', () => {
    expect(ini).toMatch(/^pool_mode = transaction$/m);
    expect(ini).toMatch(new RegExp(`^${sessionName('fitting_studio')} = .*pool_mode=session$`, 'm'));
  });
});

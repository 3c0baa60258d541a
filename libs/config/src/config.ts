import { readFileSync } from 'node:fs';
import { z } from 'zod';
import { storageEnvironment, storageOf } from './storage.js';

/** The environment is not usable. The message lists names of variables, never their values. */
export class ConfigError extends Error {
  override readonly name = 'ConfigError';
}

const host = z.string().min(1).default('127.0.0.1');
const port = z.coerce.number().int().min(0).max(65535);
const flag = z
  .enum(['0', '1'])
  .default('0')
  .transform((value) => value === '1');

/** `name:key,name:key`, each key 32 bytes in base64url; the first seals, the others still open. */
const masterKeys = z
  .string()
  .regex(/^[a-z0-9-]+:[A-Za-z0-9_-]{43}(,[a-z0-9-]+:[A-Za-z0-9_-]{43})*$/)
  .transform((text) =>
    text.split(',').map((pair) => {
      const [id = '', key = ''] = pair.split(':');
      return { id, key: Buffer.from(key, 'base64url') };
    }),
  );

/** @returns null when there are none, or what is there is not a list of keys */
export function masterKeysOf(env: NodeJS.ProcessEnv): readonly { id: string; key: Buffer }[] | null {
  return masterKeys.safeParse(withMasterKeys(env)['MASTER_KEYS']).data ?? null;
}

/** A file that cannot be read is as good as none: the keys are missing then. */
function withMasterKeys(env: NodeJS.ProcessEnv): NodeJS.ProcessEnv {
  const { MASTER_KEYS: given, MASTER_KEYS_FILE: file } = env;
  if (given !== undefined || file === undefined) return env;
  try {
    return { ...env, MASTER_KEYS: readFileSync(file, 'utf8').trim() };
  } catch {
    return env;
  }
}

const secret = z.string().min(32);
const databaseUrl = z.url({ protocol: /^postgres(ql)?$/ });

const shared = {
  NODE_ENV: z
    .enum(['development', 'test', 'production'])
    .default('development')
    .describe('`production` refuses what is for tests and the demo only'),
  DATABASE_URL: databaseUrl.describe('As the role of the app: `fitting_api` or `fitting_worker`'),
  DATABASE_POOL: z.coerce.number().int().min(1).max(200).default(10).describe('Connections per process'),
  DATABASE_POOLED: flag.describe(
    'Whether PgBouncer stands between, in transaction mode: statements are then not prepared ahead',
  ),
  PUBLIC_URL: z.url({ protocol: /^https?$/ }).describe('Where clients reach the API, for links in mail'),
  LOG_LEVEL: z
    .enum(['fatal', 'error', 'warn', 'info', 'debug', 'silent'])
    .default('info')
    .describe('The least grave lines that are still logged'),
  TEST_CLOCK: flag.describe('Whether the clock may be moved; refused in production'),
  ...storageEnvironment,
  WEBHOOK_KEY: secret.describe(
    'The secrets that sign webhooks come from it, so another key changes them all',
  ),
  LOCAL_WEBHOOKS: flag.describe('Whether webhooks may go to the own network; refused in production'),
  OTEL_EXPORTER_OTLP_TRACES_ENDPOINT: z
    .url({ protocol: /^https?$/ })
    .optional()
    .describe(
      'Where traces go, by OTLP over HTTP, such as `http://127.0.0.1:4318/v1/traces`; without it none are made',
    ),
  MASTER_KEYS: masterKeys.describe(
    '`name:key,name:key`: each key 32 bytes in base64url; the first wraps the studios’ keys, the others still open',
  ),
  MASTER_KEYS_FILE: z.string().min(1).optional().describe('A file with the same, in place of it'),
};

const databaseName = z.string().min(1).max(63).default('fitting_studio').describe('The database');
const adminUrl = databaseUrl.describe(
  'An administrator’s: row-level security lets the apps’ roles see one studio at most',
);

const apiEnvironment = z
  .object({
    ...shared,
    DATABASE_REPLICA_URL: databaseUrl
      .optional()
      .describe('A streaming replica, for reviews and calendar feeds; without it the primary answers them'),
    API_HOST: host.describe('The address the API listens at'),
    API_PORT: port.default(3000).describe('The port it listens at'),
    API_METRICS_PORT: port.optional().describe('Where Prometheus asks; without it nobody does'),
    TOKEN_SECRET: secret.describe('Signs access tokens: whoever knows it can sign in as anyone'),
    MAIL_REPORT_SECRET: z
      .union([z.literal(''), z.string().regex(/^\S{32,}$/)])
      .default('')
      .describe(
        'What a mail server shows when it hands over reports of deliveries; without it none are taken',
      ),
    TRUST_TRACEPARENT: flag.describe(
      'Whether a trace goes on that a request’s `traceparent` names; for a proxy that sets it itself',
    ),
    OWNERS_NEED_SECOND_FACTOR: z
      .enum(['0', '1'])
      .default('1')
      .transform((value) => value === '1')
      .describe('Whether owners sign in with a second factor; 0 is refused in production'),
    TRUSTED_PROXIES: z
      .string()
      .default('')
      .transform((text) => text.split(',').filter((address) => address !== ''))
      .describe('Addresses or networks whose `X-Forwarded-For` is believed, with commas between'),
  })
  .transform((env) => ({
    production: env.NODE_ENV === 'production',
    databaseUrl: env.DATABASE_URL,
    databasePool: env.DATABASE_POOL,
    databasePooled: env.DATABASE_POOLED,
    publicUrl: env.PUBLIC_URL.replace(/\/$/, ''),
    logLevel: env.LOG_LEVEL,
    testClock: env.TEST_CLOCK,
    webhookKey: env.WEBHOOK_KEY,
    localWebhooks: env.LOCAL_WEBHOOKS,
    databaseReplicaUrl: env.DATABASE_REPLICA_URL ?? null,
    host: env.API_HOST,
    port: env.API_PORT,
    metricsPort: env.API_METRICS_PORT,
    tracesUrl: env.OTEL_EXPORTER_OTLP_TRACES_ENDPOINT,
    trustTraceparent: env.TRUST_TRACEPARENT,
    tokenSecret: env.TOKEN_SECRET,
    mailReportSecret: env.MAIL_REPORT_SECRET === '' ? null : env.MAIL_REPORT_SECRET,
    storage: storageOf(env),
    masterKeys: env.MASTER_KEYS,
    ownersNeedSecondFactor: env.OWNERS_NEED_SECOND_FACTOR,
    trustedProxies: env.TRUSTED_PROXIES,
  }));

const workerEnvironment = z
  .object({
    ...shared,
    DATABASE_LISTEN_URL: databaseUrl
      .optional()
      .describe(
        'A session of its own at the primary, to hear of new orders at once: with PgBouncer between, an entry in ' +
          'session mode; without it orders are then looked for every second',
      ),
    REDIS_URL: z
      .url({ protocol: /^rediss?$/ })
      .describe(
        'The queues; `maxmemory-policy noeviction`. With Sentinels all of it but host and port counts',
      ),
    REDIS_SENTINELS: z
      .string()
      .default('')
      .transform((text) => text.split(',').filter((address) => address !== ''))
      .pipe(z.array(z.string().regex(/^[^\s:]+:\d{1,5}$/)))
      .describe('`host:port`, with commas between: whoever asks them finds the primary of Redis'),
    REDIS_SENTINEL_PASSWORD: z.string().optional().describe('What the Sentinels want to see'),
    REDIS_PRIMARY_NAME: z.string().min(1).default('studio').describe('What the Sentinels call the primary'),
    SMTP_URL: z
      .url({ protocol: /^smtps?$/ })
      .describe('The mail server, with user and password if it wants them'),
    MAIL_FROM: z.string().min(3).describe('The address mail comes from'),
    MAIL_PER_MINUTE: z.coerce
      .number()
      .int()
      .min(0)
      .max(100_000)
      .default(600)
      .describe('Mails a minute to one mail domain, over all workers; 0 for as many as there are'),
    LINK_SECRET: secret.describe('One-time links in mail come from it'),
    WORKER_HOST: host.describe('The address at which the worker tells of its health'),
    WORKER_PORT: port.default(3001).describe('The port of that, and of its metrics'),
    QUEUE_PREFIX: z
      .string()
      .regex(/^[a-z0-9-]+$/)
      .default('studio')
      .describe('What the keys in Redis begin with'),
    // Longer than a mail may take: what Redis lost is handed over again, and what it has it knows by its id.
    HAND_AGAIN_SECONDS: z.coerce
      .number()
      .int()
      .min(1)
      .max(3600)
      .default(45)
      .describe('After how long an order that Redis may have lost is handed over again'),
  })
  .transform((env) => ({
    production: env.NODE_ENV === 'production',
    databaseUrl: env.DATABASE_URL,
    databasePool: env.DATABASE_POOL,
    databasePooled: env.DATABASE_POOLED,
    publicUrl: env.PUBLIC_URL.replace(/\/$/, ''),
    logLevel: env.LOG_LEVEL,
    testClock: env.TEST_CLOCK,
    webhookKey: env.WEBHOOK_KEY,
    localWebhooks: env.LOCAL_WEBHOOKS,
    masterKeys: env.MASTER_KEYS,
    // Nobody hears a notification through a pool in transaction mode.
    listenUrl: env.DATABASE_LISTEN_URL ?? (env.DATABASE_POOLED ? null : env.DATABASE_URL),
    redis: {
      url: env.REDIS_URL,
      sentinels: env.REDIS_SENTINELS,
      sentinelPassword: env.REDIS_SENTINEL_PASSWORD ?? null,
      primaryName: env.REDIS_PRIMARY_NAME,
    },
    smtpUrl: env.SMTP_URL,
    mailFrom: env.MAIL_FROM,
    mailPerMinute: env.MAIL_PER_MINUTE,
    linkSecret: env.LINK_SECRET,
    host: env.WORKER_HOST,
    port: env.WORKER_PORT,
    queuePrefix: env.QUEUE_PREFIX,
    tracesUrl: env.OTEL_EXPORTER_OTLP_TRACES_ENDPOINT,
    storage: storageOf(env),
    handAgainAfterSeconds: env.HAND_AGAIN_SECONDS,
  }));

const keys = (form: RegExp) =>
  z
    .string()
    .transform((text) => text.split(/[\s,]+/).filter((key) => key !== ''))
    .pipe(z.array(z.string().regex(form)).min(1));

const backupEnvironment = z
  .object({
    DATABASE_URL: adminUrl,
    DATABASE_NAME: databaseName,
    BACKUP_RECIPIENTS: keys(/^age1[a-z0-9]+$/).describe(
      'age’s public keys, with commas between: who holds the secret half of any of them can open the backup',
    ),
    ...storageEnvironment,
  })
  .transform((env) => ({
    adminUrl: env.DATABASE_URL,
    database: env.DATABASE_NAME,
    recipients: env.BACKUP_RECIPIENTS,
    storage: storageOf(env),
  }));

const restoreEnvironment = z
  .object({
    DATABASE_URL: adminUrl,
    DATABASE_NAME: databaseName,
    FITTING_OWNER_PASSWORD: z.string().min(1).describe('Of the role that owns the schema'),
    FITTING_API_PASSWORD: z.string().min(1).describe('Of the API’s role'),
    FITTING_WORKER_PASSWORD: z.string().min(1).describe('Of the worker’s role'),
    BACKUP_IDENTITY_FILE: z.string().min(1).describe('A file with age’s secret keys, a line each'),
    ...storageEnvironment,
  })
  .transform((env) => ({
    adminUrl: env.DATABASE_URL,
    database: env.DATABASE_NAME,
    passwords: {
      owner: env.FITTING_OWNER_PASSWORD,
      api: env.FITTING_API_PASSWORD,
      worker: env.FITTING_WORKER_PASSWORD,
    },
    identityFile: env.BACKUP_IDENTITY_FILE,
    storage: storageOf(env),
  }));

/** The environment of each process, for the page that tells of it. */
export const environments = {
  API: apiEnvironment,
  worker: workerEnvironment,
  backup: backupEnvironment,
  restore: restoreEnvironment,
};

export type ApiConfig = Readonly<z.infer<typeof apiEnvironment>>;
export type WorkerConfig = Readonly<z.infer<typeof workerEnvironment>>;
export type BackupConfig = Readonly<z.infer<typeof backupEnvironment>>;
export type RestoreConfig = Readonly<z.infer<typeof restoreEnvironment>>;

/** @throws ConfigError naming each variable that is missing or malformed */
export function apiConfig(env: NodeJS.ProcessEnv): ApiConfig {
  const config = fitForProduction(parse(apiEnvironment, withMasterKeys(env)));
  if (config.production && !config.ownersNeedSecondFactor) {
    throw new ConfigError('OWNERS_NEED_SECOND_FACTOR: may not be 0 when NODE_ENV is production');
  }
  return config;
}

/** @throws ConfigError naming each variable that is missing or malformed */
export function workerConfig(env: NodeJS.ProcessEnv): WorkerConfig {
  return fitForProduction(parse(workerEnvironment, withMasterKeys(env)));
}

/** @throws ConfigError naming each variable that is missing or malformed */
export const backupConfig = (env: NodeJS.ProcessEnv): BackupConfig => parse(backupEnvironment, env);

/** @throws ConfigError naming each variable that is missing or malformed */
export const restoreConfig = (env: NodeJS.ProcessEnv): RestoreConfig => parse(restoreEnvironment, env);

/** What is for tests and the demo only. */
function fitForProduction<T extends { production: boolean; testClock: boolean; localWebhooks: boolean }>(
  config: T,
): T {
  const refused = [
    ...(config.testClock ? ['TEST_CLOCK'] : []),
    ...(config.localWebhooks ? ['LOCAL_WEBHOOKS'] : []),
  ];
  if (!config.production || refused.length === 0) return config;
  throw new ConfigError(refused.map((name) => `${name}: refused when NODE_ENV is production`).join('\n'));
}

function parse<T extends object>(schema: z.ZodType<T>, env: NodeJS.ProcessEnv): Readonly<T> {
  const result = schema.safeParse(env);
  if (result.success) return Object.freeze(result.data);
  const names = result.error.issues.map((issue) => {
    // Of one in a list the list is named.
    const name = String(issue.path[0]);
    return `${name}: ${env[name] === undefined ? 'is missing' : 'is malformed'}`;
  });
  throw new ConfigError(names.join('\n'));
}

// Who may import what. Each rule names one edge of the house and why it holds.
const pureLibs =
  '^libs/(fit-math|clinical-flags|outcome-stats|ride-data|money|opening-hours|follow-up-plans|retention|shoe-work|drawings|documents|fit-sheet|messages|calendars|job-contracts)/';

/** @param {string} feature @param {string[]} mayCall */
module.exports = {
  forbidden: [
    {
      name: 'no-circular',
      severity: 'error',
      comment: 'A circle hides who depends on whom.',
      from: {},
      to: { circular: true },
    },
    {
      name: 'pure-libs-know-nothing-of-ours',
      severity: 'error',
      comment: 'A pure library can be read, tested and published alone: no Nest, no TypeORM, no I/O.',
      from: { path: pureLibs, pathNot: '\\.spec\\.ts$' },
      to: {
        path: '^(apps|libs/(database|config|api-client))/|node_modules/(@nestjs|typeorm|pg|bullmq|ioredis|nodemailer)/|^(node:)?(fs|net|http|https|child_process)$',
      },
    },
    {
      name: 'no-app-imports-an-app',
      severity: 'error',
      comment: 'API and worker share tables, messages and pure functions, never services.',
      from: { path: '^apps/([^/]+)/' },
      to: { path: '^apps/', pathNot: '^apps/$1/' },
    },
    {
      name: 'api-never-talks-to-redis',
      severity: 'error',
      comment: 'The API writes outbox rows, so it keeps booking while Redis is down.',
      from: { path: '^apps/api/' },
      to: { path: 'node_modules/(bullmq|ioredis)/' },
    },
    {
      name: 'libs-do-not-import-apps',
      severity: 'error',
      comment: 'Libraries know nothing of the apps.',
      from: { path: '^libs/' },
      to: { path: '^apps/' },
    },
    {
      name: 'database-imports',
      severity: 'error',
      comment: 'The database library may use job contracts, config and tracing, nothing else of ours.',
      from: { path: '^libs/database/' },
      to: { path: '^libs/', pathNot: '^libs/(database|job-contracts|config|tracing)/' },
    },
    {
      name: 'storage-imports',
      severity: 'error',
      comment: 'Storage keeps bytes under keys and knows neither rows nor requests.',
      from: { path: '^libs/storage/' },
      to: { path: '^libs/', pathNot: '^libs/(storage|config)/' },
    },
    {
      name: 'tracing-imports',
      severity: 'error',
      comment: 'Tracing stands alone.',
      from: { path: '^libs/tracing/' },
      to: { path: '^(libs|apps)/', pathNot: '^libs/tracing/' },
    },
    {
      name: 'opentelemetry-in-one-place',
      severity: 'error',
      comment: 'Everything else tells its spans to @studio/tracing.',
      from: { pathNot: '^libs/tracing/|node_modules/' },
      to: { path: 'node_modules/@opentelemetry/' },
    },
    {
      name: 'opentelemetry-only-when-asked-for',
      severity: 'error',
      comment: 'Where no traces are made nothing of OpenTelemetry is loaded.',
      from: { path: '^libs/tracing/', pathNot: '/open-telemetry\\.ts$' },
      to: {
        path: 'node_modules/@opentelemetry/|^libs/tracing/src/open-telemetry\\.ts$',
        dependencyTypesNot: ['type-only', 'dynamic-import'],
      },
    },
    {
      name: 'backups-imports',
      severity: 'error',
      comment: 'Backups are made beside the apps: from the database, the storage and nothing else of ours.',
      from: { path: '^libs/backups/', pathNot: '\\.spec\\.ts$' },
      to: { path: '^(libs|apps)/', pathNot: '^libs/(backups|config|database|storage)/' },
    },
    {
      name: 'config-imports',
      severity: 'error',
      comment: 'Configuration stands alone.',
      from: { path: '^libs/config/' },
      to: { path: '^(libs|apps)/', pathNot: '^libs/config/' },
    },
    {
      name: 'api-client-imports',
      severity: 'error',
      comment: 'The client is what an outside user gets: its generated file and openapi-fetch.',
      from: { path: '^libs/api-client/' },
      to: { path: '^(libs|apps)/', pathNot: '^libs/api-client/' },
    },
    {
      name: 'features-meet-only-at-their-door',
      severity: 'error',
      comment: 'A slice may call another slice only through its index.ts.',
      from: { path: '^apps/api/src/features/([^/]+)/' },
      to: { path: '^apps/api/src/features/', pathNot: '^apps/api/src/features/($1/|[^/]+/index\\.ts$)' },
    },
    {
      name: 'http-knows-no-feature',
      severity: 'error',
      comment: 'The HTTP base carries every feature and knows none.',
      from: { path: '^apps/api/src/http/' },
      to: { path: '^apps/api/src/features/' },
    },
    {
      name: 'story-is-told-through-the-client',
      severity: 'error',
      comment: 'Demo and end-to-end tests use the API as a client would.',
      from: { path: '^(seed|tests/e2e)/' },
      to: { path: '^apps/[^/]+/src/features/' },
    },
    {
      name: 'no-dev-dependency-at-run-time',
      severity: 'error',
      comment: 'What an app imports must be installed in production.',
      from: { path: '^(apps|libs)/', pathNot: '(\\.spec\\.ts|/src/testing/.*)$' },
      to: { dependencyTypes: ['npm-dev'] },
    },
    {
      name: 'no-unresolvable',
      severity: 'error',
      comment: 'An import that cannot be found.',
      from: {},
      to: { couldNotResolve: true },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    exclude: { path: '(^|/)dist/' },
    tsConfig: { fileName: 'tsconfig.deps.json' },
    tsPreCompilationDeps: true,
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'require', 'node', 'default', 'types'],
    },
  },
};

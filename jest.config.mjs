// Jest on ESM: swc only strips types, `npm run types` checks them. Two projects:
//   unit         no I/O, needs nothing running
//   integration  real PostgreSQL, Redis and SMTP, started once by tests/helpers/global-setup.mjs
const shared = {
  rootDir: import.meta.dirname,
  extensionsToTreatAsEsm: ['.ts'],
  testEnvironment: 'node',
  moduleNameMapper: {
    // A package's data as a module; the next line would make JSON of it.
    '^(\\.{1,2}/.*\\.json\\.js)$': '$1',
    '^(\\.{1,2}/.*)\\.js$': '$1',
    '^@studio/([a-z-]+)$': '<rootDir>/libs/$1/src/index.ts',
  },
  transform: {
    '^.+\\.ts$': [
      '<rootDir>/tests/helpers/transform.mjs',
      {
        jsc: {
          target: 'es2022',
          parser: { syntax: 'typescript', decorators: true },
          transform: { legacyDecorator: true, decoratorMetadata: true, useDefineForClassFields: false },
        },
        module: { type: 'es6' },
      },
    ],
  },
  modulePathIgnorePatterns: ['/dist/', '/.data/'],
};

/** Files whose tests need the running services. */
const withServices = ['\\.db\\.spec\\.ts$', '<rootDir>/tests/(e2e|faults|fuzz|launch|pages)/'];

export default {
  maxWorkers: 2,
  // Nothing here is timed: a test only has to end, on a busy machine too.
  testTimeout: process.env['SPREAD'] === undefined ? 60_000 : 240_000,
  projects: [
    {
      ...shared,
      displayName: 'unit',
      testMatch: ['**/*.spec.ts'],
      testPathIgnorePatterns: ['/node_modules/', ...withServices],
    },
    {
      ...shared,
      displayName: 'integration',
      testMatch: [
        '**/*.db.spec.ts',
        '<rootDir>/tests/{e2e,faults,fuzz,launch,pages}/**/*.spec.ts',
        // Minutes under load, and programs that npm test does not ask for: npm run spread.
        ...(process.env['SPREAD'] === 'failover' ? ['<rootDir>/tests/spread/*.drill.ts'] : []),
      ],
      testPathIgnorePatterns: ['/node_modules/'],
      globalSetup: '<rootDir>/tests/helpers/global-setup.mjs',
      globalTeardown: '<rootDir>/tests/helpers/global-teardown.mjs',
    },
  ],
};

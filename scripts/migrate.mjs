// Makes roles and database where they are missing and brings the schema up to date. From the environment:
// DATABASE_URL (an administrator's), DATABASE_NAME, FITTING_OWNER_PASSWORD, FITTING_API_PASSWORD,
// FITTING_WORKER_PASSWORD, and TEST_CLOCK=1 to let the API move the clock.
import { prepareDatabase } from './services/roles.mjs';

const { ownerUrl } = await prepareDatabase({
  adminUrl: required('DATABASE_URL'),
  database: process.env['DATABASE_NAME'] ?? 'fitting_studio',
  passwords: {
    owner: required('FITTING_OWNER_PASSWORD'),
    api: required('FITTING_API_PASSWORD'),
    worker: required('FITTING_WORKER_PASSWORD'),
  },
});
process.env['DATABASE_OWNER_URL'] = ownerUrl;
await import(new URL('../libs/database/dist/migrate.js', import.meta.url).href);

/** @param {string} name */
function required(name) {
  const value = process.env[name];
  if (value !== undefined && value !== '') return value;
  console.error(`${name}: is missing`);
  process.exit(1);
}

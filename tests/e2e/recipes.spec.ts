import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf } from '@studio/api-client';
import { spawn, type ChildProcess } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { text } from 'node:stream/consumers';
import ts from 'typescript';
import { findProgram } from '../../scripts/services/system-package.mjs';
import { onePixel } from '../helpers/files.js';
import { openMeasuredSession, screen, takeOnClient } from '../helpers/rider.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';
import { startWorker, stop } from '../helpers/worker.js';

const root = path.join(import.meta.dirname, '../..');
const recipes = path.join(root, 'docs/recipes');
const names = readdirSync(recipes)
  .filter((file) => file !== 'README.md')
  .map((file) => file.replace('.md', ''));

/** All blocks of a language, one after another, as a reader would type them. */
function blocksOf(name: string, language: 'bash' | 'ts'): string {
  const markdown = readFileSync(path.join(recipes, `${name}.md`), 'utf8');
  const blocks = [...markdown.matchAll(/^```(\w+)\n(.*?)^```$/gms)];
  return blocks
    .filter(([, of]) => of === language)
    .map(([, , code]) => code)
    .join('\n');
}

/** A day nobody has booked for yet. */
const day = '2090-03-02';

/** What each prints, by either way. */
const prints: Record<string, { bash: RegExp; ts: RegExp }> = {
  'sign-in': { bash: /^signed in as Owner, for 600 s$/m, ts: /^signed in as Owner$/m },
  'todays-rider': {
    bash: /^\d\d:\d\d Robin Rider, First fit, intake taken, permission may_be_booked\n(.*\n)*.* Robin Rider$/m,
    ts: /^\d\d:\d\d Robin Rider, First fit, intake taken, permission may_be_booked$/m,
  },
  'record-a-session': {
    bash: /^thigh 433 mm, standard error [\d.]+ mm\nfound: saddle 740 mm\nleft: saddle 728 mm$/m,
    ts: /^thigh 433 mm, standard error [\d.]+ mm\nfound: saddle 740 mm\nleft: saddle 728 mm$/m,
  },
  'work-offline': {
    bash: /^sent 2: waiting, missing \[1\]\nsent 1 and 2: settled up to 2$/m,
    ts: /^2: conflict, .+\nstill to send: 0$/m,
  },
  'ask-the-calculators': {
    // 13.6 mm lower: the leg chain's own table, computed independently.
    bash: /"value":-13\.[56]\d*.*\n422 fit-math\.input\.out-of-range: .*thighMm$/m,
    ts: /"value":-13\.[56]/,
  },
  'upload-a-photo': { bash: /^image\/png, 1 by 1\nimage\/webp$/m, ts: /^image\/png, 1 by 1$/m },
  'fit-sheet': { bash: /^%PDF-$/m, ts: /^%PDF-$/m },
  'shoe-work': {
    bash: /^cannot_tell: Find out .+\nin_work, written down: 1, next: marked left, photographed right$/m,
    ts: /^shoe-work\.cannot-tell: .+ Lay a straight edge/m,
  },
};

it('are all named in the table of contents, and each says what it prints', () => {
  const contents = readFileSync(path.join(recipes, 'README.md'), 'utf8');
  for (const name of names) expect(contents).toContain(`(${name}.md)`);
  expect(Object.keys(prints).sort()).toEqual([...names].sort());
});

describe('every recipe', () => {
  let api: TestApi;
  let studio: TestStudio;
  let worker: ChildProcess;
  let folder: string;

  beforeAll(async () => {
    mkdirSync(path.join(root, '.data'), { recursive: true });
    // Inside the project, so that the client is found by its name.
    folder = mkdtempSync(path.join(root, '.data/recipes-'));
    writeFileSync(path.join(folder, 'photo.png'), onePixel);
    for (const name of names) writeFileSync(path.join(folder, `${name}.mts`), blocksOf(name, 'ts'));
    api = await startTestApi();
    studio = await openTestStudio(api);
    worker = startWorker(api, 'recipes');
  });
  afterAll(async () => {
    await stop(worker);
    await api.close();
    rmSync(folder, { recursive: true });
  });

  /** A screened rider with a visit today and an open session, as the recipes' table of variables says. */
  async function environment(): Promise<Record<string, string>> {
    const client = await takeOnClient(studio.owner, `rider-${Math.random()}@riders.example`);
    const { clientId } = client;
    await screen(studio.owner, clientId);
    const { serviceId, roomId } = studio;
    const booking = { clientId, serviceId, roomId, fitterId: studio.owner.signedIn.id };
    const startsAt = `${day}T${nextHour()}:00:00Z`;
    await dataOf(studio.desk.POST('/v1/appointments', { body: { ...booking, startsAt } }));
    const { handle, owner } = studio.studio;
    return {
      PATH: process.env['PATH'] ?? '',
      ...{ API_URL: api.url, STUDIO: handle, EMAIL: owner.email, PASSWORD: owner.password },
      ...{ CLIENT_ID: clientId, BIKE_ID: client.bikeId, SHOE_ID: client.shoeId },
      FIT_SESSION_ID: await openMeasuredSession(studio.owner, client),
      PHOTO: path.join(folder, 'photo.png'),
      TODAY: day,
    };
  }

  let hour = 0;
  const nextHour = (): string => String((hour += 1)).padStart(2, '0');

  it('is right by the client’s types', () => {
    const program = ts.createProgram(
      names.map((name) => path.join(folder, `${name}.mts`)),
      {
        ...{ noEmit: true, strict: true, skipLibCheck: true, types: ['node'] },
        target: ts.ScriptTarget.ES2022,
        module: ts.ModuleKind.NodeNext,
        moduleResolution: ts.ModuleResolutionKind.NodeNext,
      },
    );
    const faults = ts
      .getPreEmitDiagnostics(program)
      .map(
        ({ messageText, file }) =>
          `${file?.fileName ?? ''}: ${ts.flattenDiagnosticMessageText(messageText, ' ')}`,
      );
    expect(faults).toEqual([]);
  });

  it.each(names)('%s runs by the client', async (name) => {
    const { outputText } = ts.transpileModule(blocksOf(name, 'ts'), {
      compilerOptions: { module: ts.ModuleKind.ES2022, target: ts.ScriptTarget.ES2022 },
    });
    const script = path.join(folder, `${name}.mjs`);
    writeFileSync(script, outputText);
    expect(await printed(process.execPath, [script], folder, await environment())).toMatch(
      prints[name]?.ts ?? /^$/,
    );
  });

  const inShell = findProgram(['jq']) === null || findProgram(['curl']) === null ? it.skip : it;

  inShell.each(names)('%s runs by curl (left out where curl or jq is missing)', async (name) => {
    const code = name === 'sign-in' ? '' : blocksOf('sign-in', 'bash');
    const script = path.join(folder, `${name}.sh`);
    writeFileSync(script, `${code}\n${blocksOf(name, 'bash')}`);
    const output = await printed('bash', ['-euo', 'pipefail', script], folder, await environment());
    expect(output).toMatch(prints[name]?.bash ?? /^$/);
  });
});

/** @throws Error with all it printed when it fails */
async function printed(
  program: string,
  args: readonly string[],
  cwd: string,
  env: Record<string, string>,
): Promise<string> {
  const child = spawn(program, args, { cwd, env, stdio: ['ignore', 'pipe', 'pipe'] });
  const ended = new Promise<number | null>((resolve) => child.once('exit', resolve));
  const [out, err, code] = await Promise.all([text(child.stdout), text(child.stderr), ended]);
  if (code !== 0) throw new Error(`ended with ${String(code)}:\n${out}${err}`);
  return out;
}

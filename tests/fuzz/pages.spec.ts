import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { randomInt } from 'node:crypto';
import { visit } from '../helpers/intake.js';
import { openTestStudio, startTestApi, type TestApi } from '../helpers/studio.js';
import {
  hostileBodies,
  hostileHeaderValues,
  hostileInAddress,
  hostileMediaTypes,
  hostileTexts,
  percent,
  wouldRun,
} from './hostile.js';
import { makeEveryLink } from './page-links.js';
import { pageRoutes, type PageRoute } from './page-routes.js';
import { connections, send, type HostileRequest } from './send.js';

const isFull = process.env['FUZZ'] === 'full';
const seed = Number(process.env['FUZZ_SEED'] ?? (isFull ? randomInt(2 ** 31) : 20_261_126));
const runs = isFull ? 2_000 : 25;

let api: TestApi;
let links: ReadonlyMap<string, string>;
/** Names of fields that pages were seen to have, and pages they led to. */
const fields = new Set(['asked', 'change', 'consent', 'password', 'file', '__proto__', 'a[b]', '']);
const pages = new Set(['about-you']);
const figures = { routes: 0, inputs: 0, refused: 0, failed: 0 };

beforeAll(async () => {
  api = await startTestApi();
  links = await makeEveryLink(api, await openTestStudio(api));
  for (const kind of ['intake', 'follow-up']) {
    const base = `${api.url}/${kind}/${links.get(kind) ?? ''}`;
    await visit(`${base}/start`, [['consent', 'yes']]);
    await lookAround(base, kind);
  }
});
afterAll(async () => {
  connections.destroy();
  await api.close();
  const { routes, inputs, refused, failed } = figures;
  process.stdout.write(
    `fuzz of pages: ${String(routes)} routes, ${String(inputs)} inputs (${String(refused)} refused), ` +
      `${String(failed)} answers of 5xx; seed ${String(seed)}\n`,
  );
});

/** Learns what can be sent, as somebody would who reads the pages' source. */
async function lookAround(base: string, kind: string): Promise<void> {
  for (const page of ['', '/review', ...[...pages].map((name) => `/pages/${name}`)]) {
    const { html, path } = await visit(`${base}${page}`);
    for (const [, name = ''] of html.matchAll(/ name="([^"]+)"/g)) fields.add(name);
    for (const [, name = ''] of `${html} ${path}`.matchAll(/\/pages\/([a-z0-9-]+)/g)) pages.add(name);
  }
  expect([kind, fields.size > 10, pages.size > 1]).toEqual([kind, true, true]);
}

describe('hostile forms and addresses of pages', () => {
  it.each(pageRoutes.map((route) => [`${route.method} ${route.path}`, route] as const))(
    '%s',
    async (_, route) => {
      figures.routes += 1;
      const kind = route.path.split('/')[1] ?? '';
      const link = links.get(kind);
      // A page of a new kind needs a link above, or nothing behind it would be tried.
      if (link === undefined) throw new Error(`there is no link for /${kind}`);
      const check = async (request: HostileRequest): Promise<void> => {
        const { status, mediaType, text } = await send(api.url, request);
        figures.inputs += 1;
        if (status >= 500) {
          figures.failed += 1;
          throw new Error(`${String(status)}: ${text.slice(0, 400)}`);
        }
        if (status >= 400) figures.refused += 1;
        expect(['text/html', 'application/problem+json', 'text/calendar', '']).toContain(mediaType);
        if (mediaType === 'text/html') for (const markup of wouldRun) expect(text).not.toContain(markup);
      };
      await fc.assert(fc.asyncProperty(requestsTo(route, link), check), { seed, numRuns: runs });
    },
  );

  it('are tried on every kind of page', () => {
    expect(new Set(pageRoutes.map(({ path }) => path.split('/')[1]))).toEqual(new Set(links.keys()));
  });
});

function requestsTo({ method, path }: PageRoute, link: string): fc.Arbitrary<HostileRequest> {
  const oneOf = (values: Iterable<string>): fc.Arbitrary<string> => fc.constantFrom(...values);
  const mostly = (right: string): fc.Arbitrary<string> =>
    fc.oneof({ weight: 5, arbitrary: fc.constant(right) }, { weight: 1, arbitrary: oneOf(hostileInAddress) });
  const page = fc.oneof(oneOf(pages), oneOf(hostileInAddress));
  const field = fc.tuple(fc.oneof(oneOf(fields), oneOf(hostileTexts)), oneOf(hostileTexts));
  const form = fc.array(field, { minLength: 0, maxLength: 12 }).map(encoded);
  const body = fc.oneof(
    { weight: 8, arbitrary: fc.tuple(form, fc.constant('application/x-www-form-urlencoded')) },
    { weight: 1, arbitrary: fc.tuple(oneOf(hostileBodies), oneOf(hostileMediaTypes)) },
    { weight: 1, arbitrary: fc.tuple(form, oneOf(hostileMediaTypes)) },
  );
  const query = fc.oneof(
    fc.constant(''),
    form.map((text) => `?${text.slice(0, 10_000)}`),
  );
  const language = oneOf(hostileHeaderValues);
  return fc
    .tuple(mostly(link), page, query, body, language)
    .map(([by, at, search, [text, type], accepted]) => ({
      method,
      target: `${path.replace(':link', by).replace(':page', at).replace(/:\w+/, by)}${search}`,
      headers: [
        ['accept-language', accepted],
        ...(method === 'POST' ? [['content-type', type] as const] : []),
      ],
      body: method === 'POST' ? text : null,
    }));
}

const encoded = (form: readonly (readonly [name: string, value: string])[]): string =>
  form.map(([name, value]) => `${percent(name)}=${percent(value)}`).join('&');

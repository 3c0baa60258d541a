import autocannon from 'autocannon';
import { freePort } from '../../scripts/services/ports.mjs';
import { untilHealthy } from '../../scripts/services/processes.mjs';

/**
 * @param {import('../../scripts/services/processes.mjs').Processes} processes
 * @param {Record<string, string>} env
 */
export async function startBareServer(processes, env) {
  const port = await freePort(3100);
  const url = `http://127.0.0.1:${port}`;
  const script = new URL('./bare-server.mjs', import.meta.url).pathname;
  const running = processes.start('bare-server', process.execPath, [script], {
    env: { ...process.env, ...env, BENCH_PORT: String(port) },
  });
  // It has no health route: that it answers at all is enough.
  await untilHealthy(running, async () => (await fetch(url)).status === 404);
  return url;
}

/**
 * A baseline that answers something else would prove nothing.
 *
 * @param {readonly string[]} urls
 * @param {string} path
 * @param {Record<string, string>} headers
 */
export async function sameBytes(urls, path, headers) {
  const bodies = await Promise.all(
    urls.map(async (url) => (await fetch(`${url}${path}`, { headers })).text()),
  );
  if (new Set(bodies).size !== 1 || !/^\{"(id|day)":|^\{"items":\[\{/.test(bodies[0] ?? '')) {
    throw new Error(`the servers answer differently:\n${bodies.join('\n')}`);
  }
}

/**
 * @param {{ url: string, paths: readonly string[], headers: Record<string, string>, duration: number }} load
 * @returns {Promise<number>} requests answered per second by ten connections
 */
export async function perSecond({ url, paths, headers, duration }) {
  const { pathname } = new URL(url);
  const result = await autocannon({
    url,
    connections: 10,
    duration,
    headers,
    requests: paths.map((path) => ({ path: `${pathname}${path}` })),
  });
  if (result.non2xx > 0 || result.errors > 0)
    throw new Error(`${result.non2xx + result.errors} requests failed`);
  return result.requests.average;
}

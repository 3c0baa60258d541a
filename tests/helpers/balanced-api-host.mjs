// Stands for api-host.mjs where the tests run on the parts of several machines: for every API asked for it starts one in
// each of two hosts, behind PgBouncer and with the replica, and HAProxy before them at the address asked for.
import { startHaproxy } from '../../scripts/services/haproxy.mjs';
import { freePort } from '../../scripts/services/ports.mjs';
import { Processes } from '../../scripts/services/processes.mjs';
import { answerOnPort } from './answer-on-port.mjs';

const hosts = (process.env['API_HOSTS'] ?? '').split(',');
const replica = process.env['TEST_PG_REPLICA'] ?? '';
const processes = new Processes(process.env['BALANCERS_FOLDER'] ?? '');
process.once('SIGTERM', () => process.exit());

/** @type {Map<string, { name: string, urls: string[] }>} */
const started = new Map();

/** @param {NodeJS.ProcessEnv} env */
async function start(env) {
  const replicaUrl = new URL(env['DATABASE_URL'] ?? '');
  replicaUrl.host = replica;
  const both = await Promise.all(
    hosts.map(async (host) => {
      const own = {
        TRUSTED_PROXIES: '127.0.0.1',
        ...env,
        API_PORT: String(await freePort()),
        DATABASE_REPLICA_URL: replicaUrl.href,
      };
      return /** @type {Promise<{ url: string }>} */ (ask(host, '/start', own));
    }),
  );
  const urls = both.map(({ url }) => url);
  const port = Number(env['API_PORT']);
  const name = `haproxy-${port}`;
  const servers = Object.fromEntries(urls.map((url, n) => [`api-${n + 1}`, new URL(url).host]));
  const { url } = await startHaproxy(processes, { name, port, servers });
  started.set(url, { name, urls });
  return { url };
}

/** @param {{ url: string }} asked */
async function stop({ url }) {
  const { name, urls } = started.get(url) ?? { name: '', urls: [] };
  await processes.end(name, 'SIGTERM');
  await Promise.all(urls.map((one, n) => ask(hosts[n] ?? '', '/stop', { url: one })));
  return { stopped: started.delete(url) };
}

/** @param {string} host @param {string} path @param {object} body */
async function ask(host, path, body) {
  const response = await fetch(`${host}${path}`, { method: 'POST', body: JSON.stringify(body) });
  if (!response.ok) throw new Error(await response.text());
  return /** @type {Promise<object>} */ (response.json());
}

answerOnPort({
  '/start': start,
  '/stop': stop,
  '/open-studio': (/** @type {object} */ body) => ask(hosts[0] ?? '', '/open-studio', body),
});

// Holds the APIs of test files, each its own application on a database of its own: loading the code takes seconds, and
// is done once for all of them. POST / {environment} starts one and answers {url}; POST /stop {url} ends it.
import { createServer } from 'node:http';
import { json } from 'node:stream/consumers';
import { apiConfig } from '@studio/config';
import { createApp } from '../../apps/api/dist/create-app.js';

/** @type {Map<string, Awaited<ReturnType<typeof createApp>>>} */
const apps = new Map();

/** @param {NodeJS.ProcessEnv} env */
async function start(env) {
  const config = apiConfig(env);
  const app = await createApp(config);
  await app.listen(config.port, config.host);
  const url = await app.getUrl();
  apps.set(url, app);
  return { url };
}

/** @param {{ url: string }} started */
async function stop({ url }) {
  await apps.get(url)?.close();
  return { stopped: apps.delete(url) };
}

createServer((request, response) => {
  const answer = async () => {
    const body = /** @type {never} */ (await json(request));
    return JSON.stringify(request.url === '/stop' ? await stop(body) : await start(body));
  };
  answer().then(
    (text) => response.end(text),
    (/** @type {unknown} */ error) => response.writeHead(500).end(String(error)),
  );
}).listen(Number(process.env['API_HOST_PORT']), '127.0.0.1');

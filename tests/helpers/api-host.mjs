// Holds the APIs of test files, each its own application on a database of its own: loading the code takes seconds, and
// is done once for all of them. POST /start {environment} starts one and answers {url}; POST /stop {url} ends it;
// POST /open-studio {ownerUrl, studio} opens a studio in a database.
import { apiConfig } from '@studio/config';
import { createApp } from '../../apps/api/dist/create-app.js';
import { openStudio } from '../../seed/dist/open-studio.js';
import { answerOnPort } from './answer-on-port.mjs';

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

/** @param {{ ownerUrl: string, studio: import('../../seed/src/open-studio.js').FirstStudio }} asked */
async function open({ ownerUrl, studio }) {
  await openStudio(ownerUrl, studio);
  return { opened: studio.studioId };
}

answerOnPort({ '/start': start, '/stop': stop, '/open-studio': open });

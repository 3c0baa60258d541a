// npm run build: each app in one file beside what was compiled. Loading thousands took most of a start.
import path from 'node:path';
import { rolldown } from 'rolldown';
import { apps, bundleOf } from './services/bundle.mjs';
import { root } from './services/paths.mjs';

/** What Nest looks for and we do not have. */
const absent = [/^@nestjs\/(microservices|websockets)(\/|$)/, '@nestjs/platform-express', '@fastify/view'];
/** What is not JavaScript, or looks for files beside itself. */
const apart = [/^@node-rs\//, 'sharp', 'pdfkit', /^(bullmq|ioredis|msgpackr|pino)$/];

/** Before anything is written: a bundle that is refused must not be there to be run. @type {import('rolldown').Plugin} */
const looksForNoFiles = {
  name: 'looks-for-no-files',
  generateBundle(_options, parts) {
    for (const part of Object.values(parts)) {
      if (part.type === 'chunk' && looksBesideItself.test(part.code)) {
        throw new Error(`something in ${part.fileName} looks for files beside itself; it has to stay apart`);
      }
    }
  },
};
const looksBesideItself = /import\.meta\.(dirname|filename)|new URL\([^)]*import\.meta/;

for (const app of apps) {
  const bundle = await rolldown({
    cwd: root,
    input: { main: path.join('apps', app, 'dist', 'main.js') },
    platform: 'node',
    external: [...absent, ...apart],
    plugins: [looksForNoFiles],
  });
  await bundle.write({
    dir: path.dirname(bundleOf(app)),
    format: 'esm',
    entryFileNames: '[name].mjs',
    chunkFileNames: '[name]-[hash].mjs',
    // TypeORM, Nest and the OpenAPI document call classes by their names.
    keepNames: true,
  });
  await bundle.close();
}

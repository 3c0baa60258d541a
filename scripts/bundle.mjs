// npm run build: each app in one file beside what was compiled. Loading thousands took most of a start.
import path from 'node:path';
import { rolldown } from 'rolldown';
import { apps, bundleOf } from './services/bundle.mjs';
import { root } from './services/paths.mjs';

/** What Nest looks for and we do not have. */
const absent = [/^@nestjs\/(microservices|websockets)(\/|$)/, '@nestjs/platform-express', '@fastify/view'];
/** What is not JavaScript. */
const native = [/^@node-rs\//, 'sharp'];

for (const app of apps) {
  const bundle = await rolldown({
    cwd: root,
    input: { main: path.join('apps', app, 'dist', 'main.js') },
    platform: 'node',
    external: [...absent, ...native],
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

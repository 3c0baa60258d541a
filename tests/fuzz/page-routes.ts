import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';

export interface PageRoute {
  readonly method: 'GET' | 'POST';
  /** With `:link` and, here and there, `:page` in it. */
  readonly path: string;
}

const features = path.join(import.meta.dirname, '../../apps/api/src/features');

/** Every route that is no part of the API's document: pages, and what is read by a link alone. */
export const pageRoutes: readonly PageRoute[] = readdirSync(features, {
  recursive: true,
  encoding: 'utf8',
})
  .filter((file) => file.endsWith('.controller.ts'))
  .flatMap((file) => {
    const source = readFileSync(path.join(features, file), 'utf8');
    if (!source.includes('@ApiExcludeController()')) return [];
    const base = /@Controller\('([^']+)'\)/.exec(source)?.[1] ?? '';
    return [...source.matchAll(/@(Get|Post)\((?:'([^']*)')?\)/g)].map(([, verb, rest = '']) => ({
      method: verb === 'Get' ? ('GET' as const) : ('POST' as const),
      path: ['', base, ...(rest === '' ? [] : [rest])].join('/'),
    }));
  });

import type { FastifyInstance } from 'fastify';
import { InvalidRequest } from './problem.js';

/** Ours are nested six deep at most; what walks through a body goes as deep as it is nested. */
const deepest = 32;

/** Refuses bodies that are nested so deep that checking them would exhaust the stack. */
export function refuseDeepBodies(server: Pick<FastifyInstance, 'addHook'>): void {
  server.addHook('preValidation', (request, _reply, done) => {
    const problem = new InvalidRequest([
      { field: 'body', message: `must be nested ${deepest} deep at most` },
    ]);
    done(isDeeper(request.body, deepest) ? problem : undefined);
  });
}

function isDeeper(body: unknown, limit: number): boolean {
  let level: unknown[] = [body];
  for (let depth = 0; level.length > 0; depth += 1) {
    if (depth > limit) return true;
    level = level.flatMap((value): unknown[] =>
      typeof value === 'object' && value !== null && !Buffer.isBuffer(value) ? Object.values(value) : [],
    );
  }
  return false;
}

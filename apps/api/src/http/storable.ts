import { ApiError, InvalidRequest } from './problem.js';

declare module 'fastify' {
  interface FastifyContextConfig {
    /** Of a body whose parts stand each for itself: takes out what would have the whole of it refused. */
    beforeStorable?: (body: unknown) => void;
  }
}

/** Ours are nested six deep at most; what is nested deeper could exhaust the stack of whoever follows it. */
const deepest = 32;

class TooDeep extends ApiError {
  readonly code = 'request.too-deep';
  readonly status = 400;
  readonly title = `The body is nested deeper than ${String(deepest)} times`;

  constructor() {
    super(undefined, {
      errors: [{ field: 'body', message: `must be nested ${String(deepest)} deep at most` }],
    });
  }
}

/** What the database cannot hold: NUL and halves of a character, in texts and in names. Walks without calling itself. */
export function notStorable(said: unknown): ApiError | undefined {
  const waiting: { value: unknown; field: string; depth: number }[] = [{ value: said, field: '', depth: 0 }];
  for (let next = waiting.pop(); next; next = waiting.pop()) {
    const { value, field, depth } = next;
    if (typeof value === 'string' && unfit.test(value)) return unfitText(field);
    if (typeof value !== 'object' || value === null || Buffer.isBuffer(value)) continue;
    if (depth === deepest) return new TooDeep();
    for (const [name, inner] of Object.entries(value)) {
      if (unfit.test(name)) return unfitText(field);
      waiting.push({ value: inner, field: field === '' ? name : `${field}.${name}`, depth: depth + 1 });
    }
  }
  return undefined;
}

const unfit = /[\0\p{Surrogate}]/u;

const unfitText = (field: string): ApiError =>
  new InvalidRequest([{ field, message: 'must not contain NUL or half of a surrogate pair' }]);

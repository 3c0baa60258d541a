import type { components } from './schema.js';

export type Problem = components['schemas']['Problem'];

/** What the API answered instead of data: an RFC 9457 problem document. Act on `code`, show `message`. */
export class ProblemError extends Error {
  override readonly name = 'ProblemError';
  readonly code: string;
  readonly status: number;

  constructor(readonly problem: Problem) {
    const fields = (problem.errors ?? []).map(({ field, message }) => `${field} ${message}`);
    super([problem.title, problem.detail, ...fields].filter(Boolean).join('. '));
    this.code = problem.code;
    this.status = problem.status;
  }
}

/**
 * The data of a call, or a thrown problem.
 *
 * @throws ProblemError when the API answered with a problem document; TypeError when it could not be reached
 * @example const client = await dataOf(studio.GET('/v1/clients/{clientId}', { params: { path: { clientId } } }));
 */
export async function dataOf<Data>(
  call: Promise<{ data?: Data; error?: unknown; response: Response }>,
): Promise<Data> {
  const { data, error, response } = await call;
  if (response.ok) return data as Data;
  if (isProblem(error)) throw new ProblemError(error);
  throw new ProblemError({
    type: 'about:blank',
    title: `The server answered ${response.status} without a problem document`,
    status: response.status,
    code: 'client.unreadable-answer',
    requestId: response.headers.get('x-request-id') ?? '',
  });
}

function isProblem(body: unknown): body is Problem {
  return typeof body === 'object' && body !== null && 'code' in body && 'title' in body;
}

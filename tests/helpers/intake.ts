import { dataOf, type StudioClient } from '@studio/api-client';

/** An intake link as it would be handed to the client: the path of its pages. */
export async function openIntake(studio: StudioClient, clientId: string): Promise<string> {
  const { url } = await dataOf(
    studio.POST('/v1/clients/{clientId}/intake-links', {
      params: { path: { clientId } },
      body: { delivery: 'hand_over' },
    }),
  );
  if (url === null) throw new Error('a link to be handed over is told');
  return new URL(url).pathname;
}

export interface Visited {
  readonly status: number;
  /** Where it ended, after redirects. */
  readonly path: string;
  readonly html: string;
  readonly headers: Headers;
}

/** A browser without script: follows redirects, sends forms. */
export async function visit(url: string, form?: readonly (readonly [string, string])[]): Promise<Visited> {
  const response = await fetch(url, {
    ...(form && {
      method: 'POST',
      body: new URLSearchParams(form.map(([name, value]): [string, string] => [name, value])),
    }),
  });
  return {
    status: response.status,
    path: new URL(response.url).pathname,
    html: await response.text(),
    headers: response.headers,
  };
}

/** The questions a page asks. */
export const askedOn = ({ html }: Visited): string[] =>
  [...html.matchAll(/name="asked" value="([^"]+)"/g)].map(([, key]) => key as string);

/** An answer as a form sends it: nothing chosen of a list is the box that says so. */
function fieldsOf(key: string, answer: unknown): (readonly [string, string])[] {
  if (answer === undefined) return [];
  if (!Array.isArray(answer)) return [[key, typeof answer === 'string' ? answer : JSON.stringify(answer)]];
  return answer.length === 0 ? [[key, '-none']] : answer.map((chosen) => [key, String(chosen)]);
}

/** Answers a page's questions from `answers`, and sends it. */
export function send(
  baseUrl: string,
  page: Visited,
  answers: Readonly<Record<string, unknown>>,
): Promise<Visited> {
  const asked = askedOn(page);
  const change = page.html.includes('name="change"') ? [['change', '1'] as const] : [];
  return visit(`${baseUrl}${page.path}`, [
    ...asked.map((key) => ['asked', key] as const),
    ...change,
    ...asked.flatMap((key) => fieldsOf(key, answers[key])),
  ]);
}

import { readFileSync } from 'node:fs';
import path from 'node:path';
import { operations, type Operation } from './openapi.js';

const file = path.join(import.meta.dirname, '../../libs/api-client/openapi.json');
const document = JSON.parse(readFileSync(file, 'utf8')) as {
  paths: Record<string, Record<string, { responses: object; parameters?: { name: string }[] }>>;
};

/** Creates without an Idempotency-Key, each with why. */
export const withoutKey: ReadonlyMap<string, string> = new Map([
  ['signIn', 'nobody is signed in yet, and its answer is a secret that is not kept'],
  ['refreshSignIn', 'a refresh token is good for one renewal by itself'],
  [
    'beginFirstSecondFactor',
    'its answer is a secret that is not kept; one begun anew replaces the one before',
  ],
  ['confirmFirstSecondFactor', 'a one-time code is good once by itself, and its answer is secret'],
  ['beginMySecondFactor', 'its answer is a secret that is not kept; one begun anew replaces the one before'],
  ['confirmMySecondFactor', 'a one-time code is good once by itself, and its answer is secret'],
  ['createApiKey', 'its answer is a secret that is told once and not kept'],
  ['createCalendarFeed', 'its answer is a secret address that is told once and not kept'],
  ['mountShoeHardware', 'it changes a shoe from a version: a second one meets its If-Match'],
  ['answerFollowUp', 'a link is answered once by itself, by somebody who is not signed in'],
]);

export interface Create extends Operation {
  readonly takesKey: boolean;
}

/** Every operation that answers 201. */
export const creates: readonly Create[] = operations.flatMap((operation) => {
  const { responses, parameters = [] } = document.paths[operation.path]?.[operation.method.toLowerCase()] ?? {
    responses: {},
  };
  if (!('201' in responses)) return [];
  return [{ ...operation, takesKey: parameters.some(({ name }) => name === 'Idempotency-Key') }];
});

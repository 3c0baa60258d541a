export { openClient, signIn, type SignIn, type StudioClient } from './client.js';
export { dataOf, ProblemError, type Problem } from './problem-error.js';
export type { components, paths } from './schema.js';

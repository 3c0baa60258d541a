import { createDataSource } from '@studio/database';

/**
 * For a command. It may go through PgBouncer, where what one transaction prepares the next may not find: nothing is prepared.
 *
 * @param {string} url as the API's own role
 * @param {string} applicationName what the server knows the command by
 */
export const oneConnection = (url, applicationName) =>
  createDataSource({ url, poolSize: 1, applicationName, pooled: true }).initialize();

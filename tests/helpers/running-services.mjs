/**
 * What global set-up started and global teardown stops; both run in Jest's own process.
 *
 * @type {{ stop: (() => Promise<void>) | undefined }}
 */
export const runningServices = { stop: undefined };

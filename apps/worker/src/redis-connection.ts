import type { ConnectionOptions } from 'bullmq';

/** BullMQ makes its own connections from options; handed a ready one without its settings it would never exit. */
export function redisConnection(redisUrl: string): ConnectionOptions {
  const url = new URL(redisUrl);
  return {
    host: url.hostname,
    port: Number(url.port || '6379'),
    ...(url.username !== '' && { username: decodeURIComponent(url.username) }),
    ...(url.password !== '' && { password: decodeURIComponent(url.password) }),
    ...(url.pathname.length > 1 && { db: Number(url.pathname.slice(1)) }),
    ...(url.protocol === 'rediss:' && { tls: {} }),
  };
}

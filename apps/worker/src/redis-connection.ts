import type { WorkerConfig } from '@studio/config';
import type { ConnectionOptions } from 'bullmq';

/**
 * BullMQ makes its own connections from options; handed a ready one without its settings it would never exit. With
 * Sentinels each connection asks them for the primary, when it is made and when it was lost.
 */
export function redisConnection(redis: WorkerConfig['redis']): ConnectionOptions {
  const { url: text, sentinels, sentinelPassword, primaryName } = redis;
  const url = new URL(text);
  return {
    ...(sentinels.length === 0
      ? { host: url.hostname, port: Number(url.port || '6379') }
      : {
          sentinels: sentinels.map(hostAndPort),
          name: primaryName,
          ...(sentinelPassword !== null && { sentinelPassword }),
          ...(url.protocol === 'rediss:' && { enableTLSForSentinelMode: true, sentinelTLS: {} }),
        }),
    ...(url.username !== '' && { username: decodeURIComponent(url.username) }),
    ...(url.password !== '' && { password: decodeURIComponent(url.password) }),
    ...(url.pathname.length > 1 && { db: Number(url.pathname.slice(1)) }),
    ...(url.protocol === 'rediss:' && { tls: {} }),
  };
}

function hostAndPort(address: string): { host: string; port: number } {
  const [host = '', port] = address.split(':');
  return { host, port: Number(port) };
}

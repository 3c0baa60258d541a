import type { FastifyInstance } from 'fastify';
import type { IncomingMessage } from 'node:http';

/** Who sends more than this loses the answer with the connection. */
const mostReadBytes = 32 * 1024 * 1024;

/**
 * A body that is too long is read to its end, and thrown away, before it is refused: a connection that is closed while
 * somebody still sends is reset, and the answer is lost on the way (RFC 9112, 9.6 "Tear-down").
 */
export function readRefusedBodies(server: Pick<FastifyInstance, 'addHook'>): void {
  server.addHook('onSend', async ({ raw }, reply) => {
    if (reply.statusCode === 413 && !raw.readableEnded && !raw.destroyed) await readOn(raw);
  });
}

function readOn(body: IncomingMessage): Promise<void> {
  return new Promise((resolve) => {
    let left = mostReadBytes;
    const count = (chunk: Buffer): void => {
      left -= chunk.length;
      if (left < 0) stop();
    };
    const stop = (): void => {
      body.off('data', count);
      resolve();
    };
    body.on('data', count).once('end', stop).once('close', stop);
  });
}

import type { FastifyInstance } from 'fastify';
import type { Socket } from 'node:net';

/**
 * Once the server closes, ends the connections by which no request is being answered. Node itself ends those only that have had
 * an answer; browsers and balancers open some ahead, and for such it waits until their headers are late: a minute and more.
 */
export function endQuietConnections(fastify: FastifyInstance): void {
  const quiet = new Set<Socket>();
  let closing = false;
  fastify.server.on('connection', (socket: Socket) => {
    if (closing) socket.destroy();
    quiet.add(socket);
    socket.once('close', () => quiet.delete(socket));
  });
  fastify.server.on('request', ({ socket }, response) => {
    quiet.delete(socket);
    response.once('finish', () => {
      if (!socket.destroyed) quiet.add(socket);
    });
  });
  fastify.addHook('preClose', (done) => {
    closing = true;
    for (const socket of quiet) socket.destroy();
    done();
  });
}

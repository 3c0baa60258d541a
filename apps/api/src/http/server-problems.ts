import { randomUUID } from 'node:crypto';
import { STATUS_CODES } from 'node:http';
import type { FastifyReply, FastifyRequest, FastifyServerOptions } from 'fastify';
import { problemOf } from './problem.filter.js';

/** What is refused before it reaches a route is answered like everything else: as a problem document. */
export const serverProblems: Pick<FastifyServerOptions, 'frameworkErrors' | 'clientErrorHandler'> = {
  frameworkErrors: (error, request, reply) => {
    sendProblem(error, request, reply);
  },
  clientErrorHandler: (error, socket) => {
    if (error.code === 'ECONNRESET' || !socket.writable) return;
    const tooLarge = error.code === 'HPE_HEADER_OVERFLOW';
    const problem = problemOf({ statusCode: tooLarge ? 431 : 400 }, randomUUID());
    const body = JSON.stringify(problem);
    socket.end(
      `HTTP/1.1 ${String(problem.status)} ${STATUS_CODES[problem.status] ?? ''}\r\n` +
        `content-type: application/problem+json\r\ncontent-length: ${String(Buffer.byteLength(body))}\r\n` +
        `connection: close\r\n\r\n${body}`,
    );
  },
};

function sendProblem(error: unknown, request: FastifyRequest, reply: FastifyReply): void {
  const problem = problemOf(error, request.id);
  void reply.status(problem.status).header('content-type', 'application/problem+json').send(problem);
}

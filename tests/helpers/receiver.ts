import { once } from 'node:events';
import { createServer, type IncomingHttpHeaders } from 'node:http';
import type { AddressInfo } from 'node:net';

export interface Received {
  readonly headers: IncomingHttpHeaders;
  readonly body: string;
}

export interface Receiver {
  readonly url: string;
  readonly received: Received[];
  /** How it answers from now on. */
  answer: (status: number, headers?: Record<string, string>) => void;
  close: () => Promise<void>;
}

/** An API client's endpoint on loopback. */
export async function startReceiver(): Promise<Receiver> {
  let answer: { status: number; headers: Record<string, string> } = { status: 204, headers: {} };
  const received: Received[] = [];
  const server = createServer((request, response) => {
    const chunks: Buffer[] = [];
    request.on('data', (chunk: Buffer) => chunks.push(chunk));
    request.on('end', () => {
      received.push({ headers: request.headers, body: Buffer.concat(chunks).toString() });
      response.writeHead(answer.status, answer.headers).end();
    });
  });
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  return {
    url: `http://127.0.0.1:${(server.address() as AddressInfo).port}/hooks`,
    received,
    answer: (status, headers = {}) => {
      answer = { status, headers };
    },
    close: async () => {
      server.closeAllConnections();
      server.close();
      await once(server, 'close');
    },
  };
}

import { createServer, type Server, type ServerResponse } from 'node:http';
import type { Registry } from 'prom-client';

/** `GET /health/live`, `/health/ready` and `/metrics` for whoever watches the worker. */
export function healthServer(isReady: () => Promise<boolean>, metrics: Registry): Server {
  return createServer((request, response) => {
    if (request.url === '/health/live') {
      answer(response, 200);
    } else if (request.url === '/health/ready') {
      void isReady().then((ready) => {
        answer(response, ready ? 200 : 503);
      });
    } else if (request.url === '/metrics') {
      metrics.metrics().then(
        (text) => response.writeHead(200, { 'content-type': metrics.contentType }).end(text),
        // PostgreSQL is away.
        () => {
          answer(response, 503);
        },
      );
    } else {
      answer(response, 404);
    }
  });
}

function answer(response: ServerResponse, status: 200 | 404 | 503): void {
  response.writeHead(status, { 'content-type': 'application/json' });
  response.end(JSON.stringify({ status: status === 200 ? 'ok' : 'unavailable' }));
}

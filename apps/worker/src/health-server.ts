import { createServer, type Server } from 'node:http';

/** `GET /health/live` and `/health/ready` for whoever watches the worker. */
export function healthServer(isReady: () => Promise<boolean>): Server {
  return createServer((request, response) => {
    const answer = (status: 200 | 404 | 503): void => {
      response.writeHead(status, { 'content-type': 'application/json' });
      response.end(JSON.stringify({ status: status === 200 ? 'ok' : 'unavailable' }));
    };
    if (request.url === '/health/live') {
      answer(200);
    } else if (request.url === '/health/ready') {
      void isReady().then((ready) => {
        answer(ready ? 200 : 503);
      });
    } else {
      answer(404);
    }
  });
}

import type { NestFastifyApplication } from '@nestjs/platform-fastify';

/** OWASP REST Security Cheat Sheet, "Security Headers". */
const ofData = {
  'cache-control': 'no-store',
  'content-security-policy': "default-src 'none'; frame-ancestors 'none'",
  'strict-transport-security': 'max-age=31536000; includeSubDomains',
  'x-content-type-options': 'nosniff',
  'x-frame-options': 'DENY',
};

/** The docs page runs the scripts that come with it and styles itself inline. */
const ofDocs = {
  ...ofData,
  'content-security-policy':
    "default-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data:; object-src 'none'; " +
    "base-uri 'self'; frame-ancestors 'none'",
};

/** Sets the headers that every answer carries. What a page sets itself stays. */
export function addAnswerHeaders(app: NestFastifyApplication): void {
  const server = app.getHttpAdapter().getInstance();
  let closing = false;
  server.addHook('preClose', (done) => {
    closing = true;
    done();
  });
  server.addHook('onSend', (request, reply, _payload, done) => {
    const own = reply.getHeaders();
    const headers = request.url.startsWith('/docs') ? ofDocs : ofData;
    reply.headers({ 'x-request-id': request.id, ...headers, ...own });
    // A connection kept alive after the last answer would keep the server from ending.
    if (closing) reply.header('connection', 'close');
    done();
  });
}

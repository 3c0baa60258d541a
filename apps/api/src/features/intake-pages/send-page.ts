import type { FastifyReply } from 'fastify';
import type { Html } from './html.js';
import { contentSecurityPolicy } from './style.js';

/** `no-store` is set for every answer of the API. */
export function sendPage(reply: FastifyReply, page: Html, status = 200): void {
  void reply
    .status(status)
    .header('content-type', 'text/html; charset=utf-8')
    .header('content-security-policy', contentSecurityPolicy)
    .header('x-robots-tag', 'noindex, nofollow')
    .send(page.text);
}

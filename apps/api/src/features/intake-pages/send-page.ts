import type { FastifyReply } from 'fastify';
import type { Html } from '@studio/documents';
import { contentSecurityPolicy } from './style.js';

/** `no-store` is set for every answer of the API; the address holds the secret, so it is told to nobody further. */
export function sendPage(reply: FastifyReply, page: Html, status = 200): void {
  void reply
    .status(status)
    .header('content-type', 'text/html; charset=utf-8')
    .header('content-security-policy', contentSecurityPolicy)
    .header('referrer-policy', 'no-referrer')
    .header('x-robots-tag', 'noindex, nofollow')
    .send(page.text);
}

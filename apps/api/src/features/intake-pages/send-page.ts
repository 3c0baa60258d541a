import type { FastifyReply } from 'fastify';
import type { Html } from '@studio/documents';
import { render } from './render.js';
import type { Outcome } from './shown.js';
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

/**
 * A form's answer is a redirect, so that going back or loading again sends nothing twice.
 *
 * @param base the address of the link, without a slash at its end
 */
export function answer(reply: FastifyReply, base: string, outcome: Outcome): void {
  if ('goTo' in outcome) {
    void reply.redirect(`${base}/${outcome.goTo}`, 303);
    return;
  }
  const isWrong =
    (outcome.page === 'start' && outcome.error !== null) ||
    (outcome.page === 'questions' && outcome.fields.some(({ error }) => error !== null));
  sendPage(reply, render(outcome, base), isWrong ? 422 : 200);
}

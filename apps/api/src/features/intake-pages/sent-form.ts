import { createParamDecorator, type ExecutionContext } from '@nestjs/common';
import type { FastifyRequest } from 'fastify';
import type { Form } from './read-form.js';

/** What a page's form was sent with; of a body that is none, such as JSON or a file, an empty form. */
export const SentForm = createParamDecorator((_: unknown, host: ExecutionContext): Form => {
  const { body } = host.switchToHttp().getRequest<FastifyRequest>();
  const isForm = typeof body === 'object' && body !== null && !Array.isArray(body) && !Buffer.isBuffer(body);
  return isForm ? (body as Form) : {};
});

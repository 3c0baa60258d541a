import { Controller, Get, Headers, Param, Res } from '@nestjs/common';
import { ApiExcludeController } from '@nestjs/swagger';
import type { FastifyReply } from 'fastify';
import { Operation } from '../../http/documentation.js';
import { CalendarsService } from './calendars.service.js';

/** Read by calendar programs, again and again: whoever has the address reads it. */
@ApiExcludeController()
@Controller('calendars')
@Operation('readCalendarFeed')
export class CalendarsController {
  constructor(private readonly calendars: CalendarsService) {}

  @Get(':file')
  async read(
    @Param('file') file: string,
    @Headers('if-none-match') known: string | undefined,
    @Res() reply: FastifyReply,
  ): Promise<void> {
    const { content, etag } = await this.calendars.read(file);
    void reply
      .header('etag', etag)
      // Kept by the program that asked, and asked for anew each time.
      .header('cache-control', 'private, no-cache')
      .header('x-robots-tag', 'noindex, nofollow');
    if (knows(known, etag)) void reply.status(304).send();
    else void reply.header('content-type', 'text/calendar; charset=utf-8').send(content);
  }
}

/** If-None-Match compares weakly, and may name several (RFC 9110, 13.1.2). */
const knows = (header: string | undefined, etag: string): boolean =>
  header?.split(',').some((tag) => tag.trim() === '*' || tag.trim().replace(/^W\//, '') === etag) ?? false;

import { Controller, Get, Param, Post, Res, UseFilters } from '@nestjs/common';
import { ApiExcludeController } from '@nestjs/swagger';
import { html } from '@studio/documents';
import type { FastifyReply } from 'fastify';
import { Operation } from '../../http/documentation.js';
import { RequestId } from '../../http/request-context.js';
import { layout, sendPage } from '../intake-pages/index.js';
import { ExportPageFilter } from './export-page.filter.js';
import { PersonExportsService } from './person-exports.service.js';

/** The page of the link a person was mailed. Programs that look into mail use no link up: only the form takes it. */
@ApiExcludeController()
@Controller('exports/:link')
@Operation('takeExportPages')
@UseFilters(ExportPageFilter)
export class ExportLinksController {
  constructor(private readonly exports: PersonExportsService) {}

  @Get()
  async show(@Param('link') link: string, @Res() reply: FastifyReply): Promise<void> {
    const { expiresAt } = await this.exports.shown(link);
    const title = 'Everything we keep about you';
    const body = html`<h1>${title}</h1>
      <p>One file with a page to read, all photos and documents, and the same as data for other programs.</p>
      <p>
        The link works once, until ${expiresAt.toISOString().slice(0, 10)}. The file holds what you told us
        about your health: keep it where only you can read it.
      </p>
      <form method="post" action="/exports/${link}/file">
        <button type="submit">Download it now</button>
      </form>`;
    sendPage(reply, layout({ title, body }));
  }

  @Post('file')
  async take(
    @Param('link') link: string,
    @RequestId() requestId: string,
    @Res() reply: FastifyReply,
  ): Promise<void> {
    const { content, bytes, mediaType, fileName } = await this.exports.take(link, requestId);
    void reply.status(200).headers({
      'content-type': mediaType,
      'content-length': bytes,
      'content-disposition': `attachment; filename="${fileName}"`,
      'referrer-policy': 'no-referrer',
    });
    await reply.send(content);
  }
}

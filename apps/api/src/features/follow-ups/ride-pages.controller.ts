import { Controller, Get, Param, Post, Req, Res, UseFilters } from '@nestjs/common';
import { ApiExcludeController } from '@nestjs/swagger';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Operation } from '../../http/documentation.js';
import { InvalidRequest } from '../../http/problem.js';
import { RequestId } from '../../http/request-context.js';
import { readUploadedFile, type UploadedFile } from '../../http/upload.js';
import { PageFilter, sendPage } from '../intake-pages/index.js';
import { ridePage } from './ride-page.js';
import { rideLimits, RideRefused } from './ride-reading.js';
import { RidesService } from './rides.service.js';

/** The page of a follow-up where a ride recording is sent: a plain form, as the pages beside it. */
@ApiExcludeController()
@Controller('follow-up/:link/ride')
@Operation('sendRidePages')
@UseFilters(PageFilter)
export class RidePagesController {
  constructor(private readonly rides: RidesService) {}

  @Get()
  show(@Param('link') link: string, @Res() reply: FastifyReply): Promise<void> {
    return this.page(link, reply, null);
  }

  @Post()
  async send(
    @Param('link') link: string,
    @Req() request: FastifyRequest,
    @RequestId() requestId: string,
    @Res() reply: FastifyReply,
  ): Promise<void> {
    await this.rides.requireWanted(link);
    try {
      await this.rides.keep(link, await fileOf(request), requestId);
    } catch (error) {
      if (!(error instanceof RideRefused)) throw error;
      await this.page(link, reply, error.message);
      return;
    }
    void reply.redirect(`${base(link)}/ride`, 303);
  }

  @Post('removal')
  async remove(
    @Param('link') link: string,
    @RequestId() requestId: string,
    @Res() reply: FastifyReply,
  ): Promise<void> {
    await this.rides.remove(link, requestId);
    void reply.redirect(`${base(link)}/ride`, 303);
  }

  private async page(link: string, reply: FastifyReply, error: string | null): Promise<void> {
    const { studio, ride } = await this.rides.show(link);
    sendPage(reply, ridePage({ studio, base: base(link), ride, error }), error === null ? 200 : 422);
  }
}

const base = (link: string): string => `/follow-up/${link}`;

/** @throws RideRefused for a form without a file, or with one that is too large */
async function fileOf(request: FastifyRequest): Promise<UploadedFile> {
  try {
    const file = await readUploadedFile(request, { maxBytes: rideLimits.sentBytes });
    if (file.content.length > 0) return file;
  } catch (error) {
    if ((error as { statusCode?: number }).statusCode === 413) {
      throw new RideRefused(`The file is larger than ${rideLimits.sentBytes / 1024 ** 2} MB.`);
    }
    if (!(error instanceof InvalidRequest)) throw error;
  }
  throw new RideRefused('Choose a file first.');
}

import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import { ListNotesQuery, NotePage, NoteResponse, WriteNoteRequest } from './client-notes.dto.js';
import { ClientNotesService } from './client-notes.service.js';

@ApiTags('Clients')
@Controller('v1')
export class ClientNotesController {
  constructor(private readonly notes: ClientNotesService) {}

  @Post('clients/:clientId/notes')
  @Describe({
    id: 'writeClientNote',
    summary: 'Write a note about a client; it is kept as it is',
    returns: NoteResponse,
    status: 201,
    problems: [400, 404, 409],
    once: true,
  })
  write(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
    @Body() request: WriteNoteRequest,
  ): Promise<NoteResponse> {
    return this.notes.write(ctx, clientId, request);
  }

  @Get('clients/:clientId/notes')
  @Describe({
    id: 'listClientNotes',
    summary: 'Notes about a client with who wrote them and when, newest first',
    returns: NotePage,
    problems: [400, 404],
  })
  list(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
    @Query() query: ListNotesQuery,
  ): Promise<NotePage> {
    return this.notes.list(ctx, clientId, query);
  }

  @Post('client-notes/:clientNoteId/corrections')
  @Describe({
    id: 'correctClientNote',
    summary: 'Write a correction beside a note',
    returns: NoteResponse,
    status: 201,
    problems: [400, 404],
    once: true,
  })
  correct(
    @Ctx() ctx: TenantContext,
    @Param('clientNoteId', idPipe) id: string,
    @Body() request: WriteNoteRequest,
  ): Promise<NoteResponse> {
    return this.notes.correct(ctx, id, request);
  }
}

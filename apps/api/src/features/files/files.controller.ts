import { Controller, Delete, Get, Param, Post, Query, Req } from '@nestjs/common';
import { ApiBody, ApiConsumes, ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import type { FastifyRequest } from 'fastify';
import { Describe } from '../../http/documentation.js';
import { Ctx } from '../../http/request-context.js';
import { readUpload } from '../../http/upload.js';
import { idPipe } from '../../http/validation.pipe.js';
import { greatestBytes } from './checked-file.js';
import { FilePage, FileResponse, ListFilesQuery, UploadFileForm, UploadFileRequest } from './files.dto.js';
import { FilesService } from './files.service.js';

@ApiTags('Photos and files')
@Controller('v1')
export class FilesController {
  constructor(private readonly files: FilesService) {}

  @Post('clients/:clientId/files')
  @ApiConsumes('multipart/form-data')
  @ApiBody({ type: UploadFileForm })
  @Describe({
    id: 'uploadFile',
    summary: 'Keep a photo or a document of a client',
    description:
      'A JPEG, PNG or WebP image of at most 64 megapixels, or a PDF; at most 15 MB. An image is kept upright and ' +
      'without what was said in it of place and device. To a signed session nothing is added.',
    returns: FileResponse,
    status: 201,
    problems: [400, 404, 409, 413, 422],
    once: true,
  })
  async upload(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
    @Req() request: FastifyRequest,
  ): Promise<FileResponse> {
    await this.files.requireUploadAllowed(ctx, clientId);
    const upload = await readUpload(request, UploadFileRequest, { maxBytes: greatestBytes });
    return this.files.upload(ctx, clientId, upload);
  }

  @Get('clients/:clientId/files')
  @Describe({
    id: 'listFiles',
    summary: "A client's photos and documents",
    returns: FilePage,
    problems: [400, 404],
  })
  list(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
    @Query() query: ListFilesQuery,
  ): Promise<FilePage> {
    return this.files.list(ctx, clientId, query);
  }

  @Get('files/:fileId')
  @Describe({
    id: 'getFile',
    summary: 'A photo or document, with addresses to read it by',
    returns: FileResponse,
    problems: [404],
  })
  get(@Ctx() ctx: TenantContext, @Param('fileId', idPipe) id: string): Promise<FileResponse> {
    return this.files.get(ctx, id);
  }

  @Delete('files/:fileId')
  @Describe({
    id: 'deleteFile',
    summary: 'Delete a photo or document, its bytes too',
    description:
      '409 `files.session-signed` for one of a signed session, `files.of-shoe-work` for one of a step of shoe work.',
    problems: [404, 409],
  })
  remove(@Ctx() ctx: TenantContext, @Param('fileId', idPipe) id: string): Promise<void> {
    return this.files.remove(ctx, id);
  }
}

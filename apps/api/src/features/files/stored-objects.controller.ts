import { Controller, Get, Inject, Req, Res } from '@nestjs/common';
import { ApiQuery, ApiTags } from '@nestjs/swagger';
import { addressPath, SignedAddresses, type ObjectStorage } from '@studio/storage';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { DescribeFile } from '../../http/documentation.js';
import { StorageToken } from '../../http/http.module.js';
import { found } from '../../http/problem.js';

/** A browser shows it beside nothing else: no script of it runs, nothing is loaded. */
const shownAlone =
  "default-src 'none'; style-src 'unsafe-inline'; img-src data:; frame-ancestors 'none'; sandbox";

@ApiTags('Photos and files')
@Controller()
export class StoredObjectsController {
  constructor(
    @Inject(StorageToken) private readonly storage: ObjectStorage,
    private readonly addresses: SignedAddresses,
  ) {}

  @Get(addressPath)
  @ApiQuery({ name: 'signature', schema: { type: 'string', example: 'not-signed' } })
  @DescribeFile({
    id: 'readStoredObject',
    summary: 'What a signed address speaks of',
    description:
      'Take the address as it was given; it holds five minutes. 404 when it was changed, has run out, or what it ' +
      'spoke of was deleted.',
    type: 'application/octet-stream',
    problems: [404],
  })
  async read(@Req() request: FastifyRequest, @Res() reply: FastifyReply): Promise<void> {
    const { key, mediaType, fileName } = found(this.addresses.read(request.query as Record<string, unknown>));
    const { bytes, content } = found(await this.storage.get(key));
    const asciiName = fileName.replace(/[^\x20-\x7e]|["\\%]/g, '_');
    void reply.headers({
      'content-type': mediaType,
      'content-length': bytes,
      'content-security-policy': shownAlone,
      'cache-control': 'private, max-age=300',
      // RFC 6266, 4.3: the plain form for who does not read the other.
      'content-disposition': `inline; filename="${asciiName}"; filename*=UTF-8''${extValue(fileName)}`,
    });
    await reply.send(content);
  }
}

/** RFC 8187, 3.2.1: what `encodeURIComponent` leaves as it is and an extended value may not hold. */
const extValue = (text: string): string =>
  encodeURIComponent(text).replace(/['()*]/g, (sign) => `%${sign.charCodeAt(0).toString(16).toUpperCase()}`);

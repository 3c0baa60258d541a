import { Controller, Get, HttpStatus, Res } from '@nestjs/common';
import { ApiProperty, ApiTags } from '@nestjs/swagger';
import type { FastifyReply } from 'fastify';
import { DataSource } from 'typeorm';
import { Describe } from '../../http/documentation.js';

class HealthResponse {
  @ApiProperty({ enum: ['ok', 'unavailable'] })
  status: 'ok' | 'unavailable';
}

@ApiTags('Health')
@Controller('health')
export class HealthController {
  constructor(private readonly dataSource: DataSource) {}

  @Get('live')
  @Describe({ id: 'live', summary: 'The process answers', returns: HealthResponse })
  live(): HealthResponse {
    return { status: 'ok' };
  }

  @Get('ready')
  @Describe({
    id: 'ready',
    summary: 'The process can do its work: the database answers (503 when not)',
    returns: HealthResponse,
  })
  async ready(@Res({ passthrough: true }) reply: FastifyReply): Promise<HealthResponse> {
    try {
      await this.dataSource.query('SELECT 1');
      return { status: 'ok' };
    } catch {
      reply.status(HttpStatus.SERVICE_UNAVAILABLE);
      return { status: 'unavailable' };
    }
  }
}
